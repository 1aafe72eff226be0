package vestibule.bridge.intake;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.util.Optional;

/** A card or folder cannot be read now; nothing of it was lost that had been taken in. */
final class SourceException extends IOException {

    private static final long serialVersionUID = 1L;

    SourceException(IOException cause) {
        super("a file cannot be read (%s)".formatted(reason(cause)), cause);
    }

    /** Why, without the name of the file, which may be a patient's. */
    static String reason(IOException e) {
        return e instanceof FileSystemException file
                ? Optional.ofNullable(file.getReason()).orElse(e.getClass().getSimpleName())
                : String.valueOf(e.getMessage());
    }
}
