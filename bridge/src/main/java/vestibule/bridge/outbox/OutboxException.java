package vestibule.bridge.outbox;

import java.io.IOException;

/** The outbox cannot be read or written now; nothing was changed, and what was to be recorded has to be done again. */
public final class OutboxException extends IOException {

    private static final long serialVersionUID = 1L;

    OutboxException(String sentence, Throwable cause) {
        super(sentence, cause);
    }
}
