package vestibule.dicom.jpeg;

/**
 * One component of a frame (T.81 B.2.2).
 *
 * @param id the component identifier C, 0 to 255
 * @param horizontal the horizontal sampling factor H, 1 to 4
 * @param vertical the vertical sampling factor V, 1 to 4
 * @param quantizationTable the table selector Tq, 0 to 3
 */
public record Component(int id, int horizontal, int vertical, int quantizationTable) {}
