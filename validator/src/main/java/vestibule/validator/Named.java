package vestibule.validator;

import java.nio.file.Path;
import java.util.Optional;

/**
 * What an object is called, and where it lies for good.
 *
 * @param path the file; empty where there is none that the reader of a report could open
 * @param name what reports call it
 */
record Named(Optional<Path> path, String name) {

    static Named of(Path path) {
        return new Named(Optional.of(path), path.toString());
    }

    /** An entry of a ZIP file; its name is shown and never used as a path. */
    static Named entry(Path zip, String entry) {
        return new Named(Optional.of(zip), zip + "!/" + Printable.of(entry));
    }

    /** An object without a file. */
    static Named only(String name) {
        return new Named(Optional.empty(), name);
    }
}
