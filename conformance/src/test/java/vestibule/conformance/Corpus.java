package vestibule.conformance;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Assumptions;

/** The folder of real files beside the repository: every row of an index is one case. */
public final class Corpus {

    /** One row of an index. */
    public record Row(Path path, Map<String, String> columns) {
        /** A cell, empty where it has none. */
        public String column(String name) {
            return columns.getOrDefault(name, "");
        }

        @Override
        public String toString() {
            return column("file");
        }
    }

    private Corpus() {}

    /** The rows of a folder's index; the test is skipped, saying so, where the corpus is absent. */
    public static List<Row> rows(String name) throws IOException {
        Path folder =
                shared().map(shared -> shared.resolve("corpus").resolve(name)).orElse(Path.of("absent"));
        Assumptions.assumeTrue(Files.isDirectory(folder), "the corpus of real files is not here");
        List<String> lines = Files.readAllLines(folder.resolve("index.tsv"), StandardCharsets.UTF_8);
        String[] names = lines.get(0).split("\t", -1);
        List<Row> rows = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split("\t", -1);
            Map<String, String> columns = new HashMap<>();
            for (int i = 0; i < cells.length; i++) {
                columns.put(names[i], cells[i]);
            }
            rows.add(new Row(folder.resolve(cells[0]), columns));
        }
        return rows;
    }

    /** The folder of facts and files: named by the environment, else beside the repository. */
    public static Optional<Path> shared() {
        String named = System.getenv("VESTIBULE_SHARED");
        if (named != null) {
            return Optional.of(Path.of(named)).filter(Files::isDirectory);
        }
        for (Path folder = Path.of("").toAbsolutePath(); folder != null; folder = folder.getParent()) {
            Path shared = folder.resolveSibling("shared");
            if (Files.isDirectory(shared.resolve("corpus"))) {
                return Optional.of(shared);
            }
        }
        return Optional.empty();
    }

    /** The root of the source tree. */
    public static Path repository() {
        Path folder = Path.of("").toAbsolutePath();
        while (!Files.exists(folder.resolve("dicom/pom.xml"))) {
            folder = java.util.Objects.requireNonNull(folder.getParent(), "no source tree above the current folder");
        }
        return folder;
    }
}
