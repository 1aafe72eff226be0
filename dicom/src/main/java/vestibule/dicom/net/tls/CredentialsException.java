package vestibule.dicom.net.tls;

import org.jspecify.annotations.Nullable;

/** Keys or certificates of ours that cannot be used; the message is a sentence that names the file and what to do. */
public final class CredentialsException extends Exception {

    private static final long serialVersionUID = 1L;

    /** What is wrong with them. */
    public enum Mistake {
        /** The file is not of a form that is read. */
        FORMAT,
        /** What was looked for is not in the file. */
        NOTHING_IN_IT,
        /** The key is encrypted, and there is no pass phrase. */
        NO_PASS_PHRASE,
        /** The pass phrase does not open it. */
        WRONG_PASS_PHRASE,
        /** The key belongs to another certificate. */
        OTHER_KEY,
        /** A certificate without its key, or a key without its certificate. */
        INCOMPLETE
    }

    private final Mistake mistake;

    CredentialsException(Mistake mistake, String sentence, @Nullable Throwable cause) {
        super(sentence, cause);
        this.mistake = mistake;
    }

    /** What is wrong. */
    public Mistake mistake() {
        return mistake;
    }
}
