package vestibule.dicom.jpeg;

/** What a marker segment is for: T.81 Table B.1, and for application segments the identifier they begin with. */
public enum SegmentKind {
    /** SOI. */
    START_OF_IMAGE,
    /** EOI. */
    END_OF_IMAGE,
    /** DQT. */
    QUANTIZATION_TABLES,
    /** DHT. */
    HUFFMAN_TABLES,
    /** DAC. */
    ARITHMETIC_CONDITIONING,
    /** DRI. */
    RESTART_INTERVAL,
    /** SOF0 to SOF15. */
    FRAME_HEADER,
    /** SOS, without the entropy-coded data that follows it. */
    SCAN_HEADER,
    /** DNL. */
    NUMBER_OF_LINES,
    /** DHP, the header of a hierarchical progression. */
    HIERARCHICAL_PROGRESSION,
    /** EXP. */
    EXPAND_REFERENCE,
    /** COM. */
    COMMENT,
    /** APP0 "JFIF" (T.871 10.1). */
    JFIF,
    /** APP0 "JFXX", which may hold a thumbnail (T.871 10.2). */
    JFIF_EXTENSION,
    /** APP1 "Exif". */
    EXIF,
    /** APP1 with an XMP packet. */
    XMP,
    /** APP1 with a part of an extended XMP packet. */
    EXTENDED_XMP,
    /** APP2 with a chunk of an ICC profile (ICC.1 Annex B.4). */
    ICC_PROFILE,
    /** APP2 "MPF": an index of further pictures in the file. */
    MULTI_PICTURE,
    /** APP13 with image resources, IPTC among them. */
    IMAGE_RESOURCES,
    /** APP14 "Adobe" with the colour transform (T.872 6.5.3). */
    ADOBE,
    /** Any other APPn. */
    OTHER_APPLICATION;

    /** Whether a decoder needs nothing of it to find the picture's samples: APPn and COM. */
    public boolean isMetadata() {
        return switch (this) {
            case COMMENT,
                    JFIF,
                    JFIF_EXTENSION,
                    EXIF,
                    XMP,
                    EXTENDED_XMP,
                    ICC_PROFILE,
                    MULTI_PICTURE,
                    IMAGE_RESOURCES,
                    ADOBE,
                    OTHER_APPLICATION -> true;
            default -> false;
        };
    }
}
