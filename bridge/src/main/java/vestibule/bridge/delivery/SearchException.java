package vestibule.bridge.delivery;

/** A search that has no complete answer; the message says why. */
public final class SearchException extends Exception {

    private static final long serialVersionUID = 1;

    private final String nameless;

    SearchException(String message) {
        this(message, message);
    }

    /** @param nameless the message without the peer's own words, which may name a patient */
    SearchException(String message, String nameless) {
        super(message);
        this.nameless = nameless;
    }

    /** The message as logs may have it: without the peer's own words, which may name a patient. */
    public String nameless() {
        return nameless;
    }
}
