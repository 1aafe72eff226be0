package vestibule.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

@DisplayName("docs/standards.md: from a clause to code and test in two steps")
class StandardsMapTest {

    private static final Pattern NAME = Pattern.compile("`([A-Z][A-Za-z0-9]+)`");

    private static Path root() {
        Path folder = Path.of("").toAbsolutePath();
        while (!Files.exists(folder.resolve("DEVELOPERS.md"))) {
            folder = folder.getParent();
        }
        return folder;
    }

    private static Set<String> classes(Path root, String tree) throws IOException {
        Set<String> names = new HashSet<>();
        for (String module : List.of("samples", "dicom", "validator", "bridge", "conformance")) {
            Path sources = root.resolve(module).resolve("src").resolve(tree);
            if (Files.isDirectory(sources)) {
                try (Stream<Path> files = Files.walk(sources)) {
                    files.map(file -> String.valueOf(file.getFileName()))
                            .filter(name -> name.endsWith(".java"))
                            .forEach(name -> names.add(name.substring(0, name.length() - 5)));
                }
            }
        }
        return names;
    }

    @TestFactory
    @DisplayName("every row names a class and a test that exist")
    List<DynamicTest> rows() throws IOException {
        Path root = root();
        Set<String> code = classes(root, "main");
        Set<String> tests = classes(root, "test");
        List<DynamicTest> rows = new ArrayList<>();
        for (String line : Files.readAllLines(root.resolve("docs/standards.md"))) {
            String[] cells = line.split("\\|", -1);
            if (cells.length < 5 || !cells[3].contains("`")) {
                continue;
            }
            rows.add(DynamicTest.dynamicTest(cells[1].strip() + ": " + cells[2].strip(), () -> {
                assertThat(names(cells[3])).isNotEmpty().allMatch(code::contains, "is a class of ours");
                assertThat(names(cells[4])).isNotEmpty().allMatch(tests::contains, "is a test of ours");
            }));
        }
        assertThat(rows).as("rows of the table").hasSizeGreaterThan(30);
        return rows;
    }

    private static List<String> names(String cell) {
        Matcher matcher = NAME.matcher(cell);
        List<String> names = new ArrayList<>();
        while (matcher.find()) {
            names.add(matcher.group(1));
        }
        return names;
    }
}
