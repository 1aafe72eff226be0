package vestibule.bridge.delivery;

/** A search that has no complete answer; the message says why. */
public final class SearchException extends Exception {

    private static final long serialVersionUID = 1L;

    SearchException(String sentence) {
        super(sentence);
    }
}
