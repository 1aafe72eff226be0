package vestibule.bridge.app;

import java.io.IOException;

/** Whoever knows patients, orders or appointments could not be asked, or not to the end; the message names no patient. */
final class DirectoryException extends IOException {

    private static final long serialVersionUID = 1;

    DirectoryException(String message, Exception cause) {
        super(message, cause);
    }
}
