package vestibule.conformance.network;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The table of peers and services names tests that are there")
class InteroperationTableTest {

    private static final Pattern TEST = Pattern.compile("`([A-Za-z]+Test)#([A-Za-z]+)`");

    private static Path root() {
        Path folder = Path.of("").toAbsolutePath();
        while (!Files.exists(folder.resolve("DEVELOPERS.md"))) {
            folder = folder.getParent();
        }
        return folder;
    }

    private static boolean exists(Path root, String test, String method) throws IOException {
        for (String module : List.of("dicom", "bridge", "conformance")) {
            try (Stream<Path> files = Files.walk(root.resolve(module).resolve("src/test/java"))) {
                for (Path file : (Iterable<Path>) files::iterator) {
                    if (file.endsWith(test + ".java") && Files.readString(file).contains("void " + method + "(")) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    @Test
    @DisplayName("in docs/interoperability.md, which is printed here")
    void table() throws IOException {
        Path root = root();
        List<String> rows = Files.readAllLines(root.resolve("docs/interoperability.md")).stream()
                .filter(line -> line.startsWith("|"))
                .toList();
        rows.forEach(System.out::println);
        List<String> absent = new ArrayList<>();
        int named = 0;
        for (String row : rows) {
            Matcher matcher = TEST.matcher(row);
            while (matcher.find()) {
                named++;
                if (!exists(root, matcher.group(1), matcher.group(2))) {
                    absent.add(matcher.group());
                }
            }
        }
        assertThat(absent).isEmpty();
        assertThat(named).isGreaterThan(15);
    }
}
