package vestibule.bridge.delivery;

/** A destination that is none; the message says what was found and what was expected. */
public final class DestinationException extends Exception {

    private static final long serialVersionUID = 1L;

    DestinationException(String sentence) {
        super(sentence);
    }
}
