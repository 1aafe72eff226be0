package vestibule.dicom.jpeg;

/**
 * One reason why a stream may not go into a JPEG Baseline object as it is.
 *
 * @param reason which one
 * @param sentence what was found and what the standard asks for, with its clause
 */
public record Hindrance(Reason reason, String sentence) {
    /** The reasons there are. */
    public enum Reason {
        /** SOF2. */
        PROGRESSIVE(true),
        /** SOF1 with 8 bits a sample. */
        EXTENDED(true),
        /** 12 bits a sample. */
        TWELVE_BIT(false),
        /** SOF3 and SOF11. */
        LOSSLESS(false),
        /** Several frames that build on each other. */
        HIERARCHICAL(false),
        /** Arithmetic coding. */
        ARITHMETIC(false),
        /** Four inks. */
        CMYK(false),
        /** Four inks, three of them transformed. */
        YCCK(false),
        /** Red, green and blue without a colour transform. */
        RGB_CODED(false),
        /** Statements on colour that exclude each other. */
        COLOR_CONTRADICTION(false),
        /** A number of components with no meaning of its own. */
        COMPONENT_COUNT(false),
        /** Tables that the stream expects from somewhere else. */
        MISSING_TABLES(false),
        /** A 16-bit quantization table in a baseline frame. */
        SIXTEEN_BIT_QUANTIZATION(true),
        /** A scan header that decoders overlook but T.81 does not allow. */
        NONCONFORMING_SCAN(true);

        private final boolean curedByRecoding;

        Reason(boolean curedByRecoding) {
            this.curedByRecoding = curedByRecoding;
        }

        /** Whether coding the same coefficients again as baseline takes the hindrance away, without loss. */
        public boolean curedByRecoding() {
            return curedByRecoding;
        }
    }
}
