package vestibule.validator;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** What a file is that people take for an object, told from its first bytes. */
final class OtherFile {

    /** PS3.10 7.1: a preamble that may hold anything, and then this. */
    private static final int PREAMBLE = 128;

    private static final String PREFIX = "DICM";

    private OtherFile() {}

    /** What it is and what to do; empty if it is none of the files that are often taken for objects. */
    static Optional<String> what(Path file) {
        try (InputStream in = Files.newInputStream(file)) {
            String start = new String(in.readNBytes(PREAMBLE + PREFIX.length()), StandardCharsets.ISO_8859_1);
            if (start.startsWith(PREFIX, PREAMBLE)) {
                return Optional.empty();
            }
            if (start.isEmpty()) {
                return Optional.of("the file is empty; copy it again from where it came");
            }
            if (start.startsWith("\u00FF\u00D8\u00FF")) {
                return Optional.of(
                        "it is a JPEG file, a photograph that is no object yet; vestibule wrap makes one of it");
            }
            return start.startsWith("PK\u0003\u0004")
                    ? Optional.of("it is a ZIP file; unpack it and check what is in it")
                    : Optional.empty();
        } catch (IOException unreadableNow) {
            // Then the reason for which it could not be read as an object stands
            return Optional.empty();
        }
    }
}
