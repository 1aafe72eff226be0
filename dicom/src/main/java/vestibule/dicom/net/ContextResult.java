package vestibule.dicom.net;

/** What became of a proposed presentation context (PS3.8 Table 9-18). */
public enum ContextResult {
    ACCEPTED(0, "accepted"),
    USER_REJECTION(1, "rejected by the peer's application; its settings for our AE title decide that"),
    NO_REASON(2, "rejected by the peer without a reason"),
    ABSTRACT_SYNTAX_NOT_SUPPORTED(3, "the peer does not take this SOP class; switch the service on at the peer"),
    TRANSFER_SYNTAXES_NOT_SUPPORTED(
            4,
            "the peer takes the SOP class but not in this transfer syntax; switch the transfer syntax on at the peer"),
    /** The peer left the context out of its answer, or gave a number the standard reserves. */
    UNANSWERED(-1, "the peer gave no answer the standard knows");

    private final int code;
    private final String words;

    ContextResult(int code, String words) {
        this.code = code;
        this.words = words;
    }

    static ContextResult of(int code) {
        for (ContextResult result : values()) {
            if (result.code == code && result != UNANSWERED) {
                return result;
            }
        }
        return UNANSWERED;
    }

    int code() {
        return code;
    }

    /** What it means, and what to change, in words. */
    public String words() {
        return words;
    }
}
