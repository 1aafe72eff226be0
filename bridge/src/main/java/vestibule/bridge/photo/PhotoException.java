package vestibule.bridge.photo;

/** A photograph that cannot become an object as it is; the message says what was found and what was expected. */
public final class PhotoException extends Exception {

    private static final long serialVersionUID = 1L;

    /** @param sentence what was found and what was expected */
    public PhotoException(String sentence) {
        super(sentence);
    }
}
