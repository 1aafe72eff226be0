package vestibule.dicom.net;

/** Who aborted an association, and why (PS3.8 9.3.8, Table 9-26). */
public enum AbortReason {
    BY_USER(0, 0, "by its application; look into the peer's log for the reason"),
    NOT_SPECIFIED(2, 0, "by its upper layer, without a reason"),
    UNRECOGNIZED_PDU(2, 1, "by its upper layer: it did not recognize a PDU"),
    UNEXPECTED_PDU(2, 2, "by its upper layer: it did not expect a PDU"),
    UNRECOGNIZED_PARAMETER(2, 4, "by its upper layer: it did not recognize a PDU parameter"),
    UNEXPECTED_PARAMETER(2, 5, "by its upper layer: it did not expect a PDU parameter"),
    UNSUITABLE_PARAMETER_VALUE(2, 6, "by its upper layer: it did not take the value of a PDU parameter"),
    /** A combination the standard reserves. */
    RESERVED(-1, -1, "with a source or reason the standard does not know");

    private static final int SERVICE_USER = 0;

    private final int source;
    private final int code;
    private final String words;

    AbortReason(int source, int code, String words) {
        this.source = source;
        this.code = code;
        this.words = words;
    }

    /** The reason code counts only where the service provider is the source. */
    static AbortReason of(int source, int code) {
        if (source == SERVICE_USER) {
            return BY_USER;
        }
        for (AbortReason reason : values()) {
            if (reason.source == source && reason.code == code) {
                return reason;
            }
        }
        return RESERVED;
    }

    int source() {
        return source;
    }

    int code() {
        return code;
    }

    /** Who and why, in words that follow “aborted”. */
    public String words() {
        return words;
    }
}
