package vestibule.dicom.jpeg;

import java.util.Arrays;

/**
 * Keeps account of which coefficients the scans have brought, and to which bit (T.81 G.1.1.1): every component must be
 * coded, none twice, and a refinement must refine what is there.
 */
final class ScanCoverage {
    private static final byte NOTHING_YET = -1;

    private final Frame frame;
    private final byte[][] lowestBit;

    ScanCoverage(Frame frame) {
        this.frame = frame;
        this.lowestBit = new byte[frame.components().size()][64];
        for (byte[] bits : lowestBit) {
            Arrays.fill(bits, NOTHING_YET);
        }
    }

    void add(ScanHeader scan, long offset) throws JpegFormatException {
        boolean progressive = frame.type().isProgressive();
        int first = progressive ? scan.spectralStart() : 0;
        int last = progressive ? scan.spectralEnd() : 63;
        int expected = progressive && scan.approximationHigh() > 0 ? scan.approximationHigh() : NOTHING_YET;
        for (ScanComponent component : scan.components()) {
            byte[] bits = lowestBit[component.index()];
            if (first > 0 && bits[0] == NOTHING_YET) {
                throw new JpegFormatException(
                        offset,
                        "a scan brings AC coefficients of component " + (component.index() + 1)
                                + ", whose DC coefficients were expected first (T.81 G.1.1.1.1).");
            }
            for (int index = first; index <= last; index++) {
                if (bits[index] != expected) {
                    throw new JpegFormatException(
                            offset,
                            "a scan brings coefficient " + index + " of component " + (component.index() + 1)
                                    + (expected == NOTHING_YET ? " a second time." : " out of its order."));
                }
                bits[index] = (byte) (progressive ? scan.approximationLow() : 0);
            }
        }
    }

    void finish(long offset) throws JpegFormatException {
        for (int index = 0; index < lowestBit.length; index++) {
            if (lowestBit[index][0] == NOTHING_YET) {
                throw new JpegFormatException(
                        offset, "the stream ends without a scan of component " + (index + 1) + " of the frame.");
            }
        }
    }
}
