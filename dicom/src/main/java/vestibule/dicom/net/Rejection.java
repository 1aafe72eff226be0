package vestibule.dicom.net;

/**
 * How an association request was rejected (PS3.8 9.3.4, Table 9-21).
 *
 * @param result 1 permanent, 2 transient
 * @param source 1 service user, 2 service provider (ACSE), 3 service provider (presentation)
 * @param code why, to be read with the source
 */
public record Rejection(int result, int source, int code) {

    /** The reasons the standard knows, with what to do about each. */
    public enum Reason {
        NO_REASON_GIVEN(1, 1, "no reason given", "look into the peer's log for this moment"),
        APPLICATION_CONTEXT_NOT_SUPPORTED(
                1, 2, "application context name not supported", "check that the port belongs to a DICOM service"),
        CALLING_AE_TITLE_NOT_RECOGNIZED(
                1,
                3,
                "calling AE title not recognized",
                "have our AE title entered at the peer, or set the calling AE title to one it knows"),
        CALLED_AE_TITLE_NOT_RECOGNIZED(
                1, 7, "called AE title not recognized", "set the called AE title to the peer's own, letter by letter"),
        NO_REASON_GIVEN_BY_PROVIDER(2, 1, "no reason given by the peer's upper layer", "look into the peer's log"),
        PROTOCOL_VERSION_NOT_SUPPORTED(
                2, 2, "protocol version not supported", "check that the port belongs to a DICOM service"),
        TEMPORARY_CONGESTION(3, 1, "temporary congestion", "try again later"),
        LOCAL_LIMIT_EXCEEDED(3, 2, "local limit exceeded", "try again later, or allow more associations at the peer"),
        /** A combination the standard reserves. */
        RESERVED(0, 0, "a reason the standard does not know", "look into the peer's log");

        private final int source;
        private final int code;
        private final String words;
        private final String advice;

        Reason(int source, int code, String words, String advice) {
            this.source = source;
            this.code = code;
            this.words = words;
            this.advice = advice;
        }

        /** What it means. */
        public String words() {
            return words;
        }

        /** What to do. */
        public String advice() {
            return advice;
        }
    }

    private static final int PERMANENT = 1;
    private static final int TRANSIENT = 2;

    static Rejection permanent(Reason reason) {
        return new Rejection(PERMANENT, reason.source, reason.code);
    }

    static Rejection transientOne(Reason reason) {
        return new Rejection(TRANSIENT, reason.source, reason.code);
    }

    /** Why, as the standard names it. */
    public Reason reason() {
        for (Reason reason : Reason.values()) {
            if (reason.source == source && reason.code == code) {
                return reason;
            }
        }
        return Reason.RESERVED;
    }

    /** Whether the same request may succeed later without any setting being changed. */
    public boolean isTransient() {
        return result == TRANSIENT;
    }

    /** Result, source, reason and advice in words. */
    public String words() {
        String duration = result == PERMANENT ? "permanently" : isTransient() ? "for now" : "with result " + result;
        String who = switch (source) {
            case 1 -> "its application";
            case 2 -> "its association control";
            case 3 -> "its presentation service";
            default -> "source " + source;
        };
        String why = reason() == Reason.RESERVED ? reason().words + " (" + code + ")" : reason().words;
        return "%s, by %s: %s; %s".formatted(duration, who, why, reason().advice);
    }
}
