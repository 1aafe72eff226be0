package vestibule.dicom.jpeg;

/**
 * The APP14 "Adobe" segment (T.872 6.5.3).
 *
 * @param version the encoder's version
 * @param transform 0: as stored (RGB or CMYK), 1: YCbCr, 2: YCCK
 */
public record Adobe(int version, int transform) {}
