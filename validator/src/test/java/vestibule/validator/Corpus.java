package vestibule.validator;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** The folder of foreign files, where there is one: beside the repository, or where the environment says. */
final class Corpus {

    private Corpus() {}

    static Optional<Path> folder(String name) {
        String shared = System.getenv("VESTIBULE_SHARED");
        if (shared != null) {
            return Optional.of(Path.of(shared, "corpus", name)).filter(Files::isDirectory);
        }
        Path here = Path.of("").toAbsolutePath();
        while (here != null) {
            Path candidate = here.resolve("shared").resolve("corpus").resolve(name);
            if (Files.isDirectory(candidate)) {
                return Optional.of(candidate);
            }
            here = here.getParent();
        }
        return Optional.empty();
    }

    /** The first column of the folder's index. */
    static List<Path> files(Path folder) throws IOException {
        return Files.readAllLines(folder.resolve("index.tsv")).stream()
                .skip(1)
                .map(line -> folder.resolve(line.substring(0, line.indexOf('\t'))))
                .toList();
    }
}
