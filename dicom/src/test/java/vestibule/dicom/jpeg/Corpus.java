package vestibule.dicom.jpeg;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.function.ThrowingConsumer;

/** The folder of real files beside the repository: every row of an index is one test case. */
final class Corpus {
    /** One row of an {@code index.tsv}. */
    record Row(Path path, Map<String, String> columns) {
        String column(String name) {
            return columns.getOrDefault(name, "");
        }

        int number(String name) {
            return column(name).isEmpty() ? 0 : Integer.parseInt(column(name));
        }

        @Override
        public String toString() {
            return column("file");
        }
    }

    private Corpus() {}

    /** One test for each row of the folder's index; one skipped test, saying so, where the corpus is absent. */
    static Stream<DynamicTest> tests(String folder, ThrowingConsumer<Row> test) throws IOException {
        Optional<Path> corpus = find();
        if (corpus.isEmpty()) {
            return Stream.of(DynamicTest.dynamicTest(
                    folder + " (skipped)", () -> assumeTrue(false, "the corpus of real files is not here")));
        }
        return rows(corpus.get().resolve(folder)).stream()
                .map(row -> DynamicTest.dynamicTest(folder + "/" + row, () -> test.accept(row)));
    }

    static List<Row> rows(Path folder) throws IOException {
        List<String> lines = Files.readAllLines(folder.resolve("index.tsv"), StandardCharsets.UTF_8);
        List<String> names = cells(lines.get(0));
        List<Row> rows = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            List<String> cells = cells(line);
            Map<String, String> columns = new HashMap<>();
            for (int index = 0; index < cells.size(); index++) {
                columns.put(names.get(index), cells.get(index));
            }
            rows.add(new Row(folder.resolve(cells.get(0)), columns));
        }
        return rows;
    }

    private static List<String> cells(String line) {
        return List.of(line.split("\t", -1));
    }

    /** The corpus folder: named by the environment, or a sibling of a folder above this one. */
    static Optional<Path> find() {
        String named = System.getenv("VESTIBULE_SHARED");
        if (named != null) {
            return Optional.of(Path.of(named, "corpus")).filter(Files::isDirectory);
        }
        Path folder = Path.of("").toAbsolutePath();
        while (folder != null) {
            Path corpus = folder.resolveSibling("shared").resolve("corpus");
            if (Files.isDirectory(corpus)) {
                return Optional.of(corpus);
            }
            folder = folder.getParent();
        }
        return Optional.empty();
    }
}
