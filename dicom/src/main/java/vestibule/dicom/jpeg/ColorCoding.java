package vestibule.dicom.jpeg;

/** What the components of a frame are. */
public enum ColorCoding {
    /** One component of luminance. */
    GREY,
    /** Luminance and two colour differences (T.871 clause 6). */
    YCBCR,
    /** Red, green, blue as they are. */
    RGB,
    /** Four inks. */
    CMYK,
    /** YCbCr in place of the first three of four inks. */
    YCCK,
    /** Two components, or more than four: no rule says what they are. */
    UNDEFINED
}
