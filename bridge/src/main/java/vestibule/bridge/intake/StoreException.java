package vestibule.bridge.intake;

import java.io.IOException;

/** Our own folder of originals cannot take a photograph now; the source is not at fault, and nothing was taken from it. */
public final class StoreException extends IOException {

    private static final long serialVersionUID = 1L;

    StoreException(String sentence) {
        super(sentence);
    }

    StoreException(String sentence, Throwable cause) {
        super(sentence, cause);
    }
}
