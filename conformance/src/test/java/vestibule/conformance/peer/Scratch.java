package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** A folder that goes away with everything in it. */
public record Scratch(Path folder) implements AutoCloseable {

    /** A new one. */
    public static Scratch create() throws IOException {
        return new Scratch(Files.createTempDirectory("vestibule-"));
    }

    @Override
    public void close() throws IOException {
        List<Path> all;
        try (Stream<Path> walk = Files.walk(folder)) {
            all = walk.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path path : all) {
            Files.deleteIfExists(path);
        }
    }
}
