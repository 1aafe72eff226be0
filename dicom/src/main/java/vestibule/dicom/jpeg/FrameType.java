package vestibule.dicom.jpeg;

import java.util.Optional;

/** The coding processes that a start-of-frame marker names (T.81 Table B.1). */
public enum FrameType {
    /** SOF0: the only one of DICOM's JPEG Baseline transfer syntax (PS3.5 A.4.1). */
    BASELINE(0, "baseline sequential"),
    /** SOF1. */
    EXTENDED(1, "extended sequential"),
    /** SOF2. */
    PROGRESSIVE(2, "progressive"),
    /** SOF3. */
    LOSSLESS(3, "lossless"),
    /** SOF5. */
    DIFFERENTIAL_SEQUENTIAL(5, "differential sequential (hierarchical)"),
    /** SOF6. */
    DIFFERENTIAL_PROGRESSIVE(6, "differential progressive (hierarchical)"),
    /** SOF7. */
    DIFFERENTIAL_LOSSLESS(7, "differential lossless (hierarchical)"),
    /** SOF9. */
    ARITHMETIC_SEQUENTIAL(9, "extended sequential with arithmetic coding"),
    /** SOF10. */
    ARITHMETIC_PROGRESSIVE(10, "progressive with arithmetic coding"),
    /** SOF11. */
    ARITHMETIC_LOSSLESS(11, "lossless with arithmetic coding"),
    /** SOF13. */
    ARITHMETIC_DIFFERENTIAL_SEQUENTIAL(13, "differential sequential with arithmetic coding (hierarchical)"),
    /** SOF14. */
    ARITHMETIC_DIFFERENTIAL_PROGRESSIVE(14, "differential progressive with arithmetic coding (hierarchical)"),
    /** SOF15. */
    ARITHMETIC_DIFFERENTIAL_LOSSLESS(15, "differential lossless with arithmetic coding (hierarchical)");

    private final int number;
    private final String words;

    FrameType(int number, String words) {
        this.number = number;
        this.words = words;
    }

    /** The n of SOFn. */
    public int number() {
        return number;
    }

    /** The process in words, without a full stop. */
    public String words() {
        return words;
    }

    /** SOF9 and above. */
    public boolean isArithmetic() {
        return number >= 9;
    }

    /** Predictive coding of samples instead of a cosine transform: SOF3, 7, 11, 15. */
    public boolean isLossless() {
        return (number & 3) == 3;
    }

    /** SOF2, 6, 10, 14. */
    public boolean isProgressive() {
        return (number & 3) == 2;
    }

    /** A frame that only corrects another one: SOF5 to 7, 13 to 15. */
    public boolean isDifferential() {
        return (number & 4) != 0;
    }

    static Optional<FrameType> ofMarker(int code) {
        for (FrameType type : values()) {
            if (type.number == code - Marker.SOF0) {
                return Optional.of(type);
            }
        }
        return Optional.empty();
    }
}
