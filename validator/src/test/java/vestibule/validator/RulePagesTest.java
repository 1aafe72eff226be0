package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** To write the pages after a change of rules: {@code mvn -pl validator -am test -Dtest=RulePagesTest -Drule.pages=write}. */
@DisplayName("The pages of docs/rules")
class RulePagesTest {

    private static final Path FOLDER = Path.of("../docs/rules");

    @Test
    @DisplayName("the guide for the auditor names what the profile of the practice takes as not met")
    void assumptions() throws IOException {
        String guide = Files.readString(Path.of("..", "docs", "auditor.md")).replaceAll("\\s+", " ");
        assertThat(guide).contains(Profile.PRACTICE.assumedFalse());
    }

    @Test
    @DisplayName("are those that the rules make, one for each id and none besides")
    void areUpToDate() throws IOException {
        Map<String, String> expected = RulePages.all();
        if ("write".equals(System.getProperty("rule.pages"))) {
            write(expected);
        }
        Map<String, String> found = new TreeMap<>();
        try (Stream<Path> files = Files.list(FOLDER)) {
            for (Path file : files.toList()) {
                found.put(file.getFileName().toString(), Files.readString(file));
            }
        }
        assertThat(found).isEqualTo(expected);
    }

    private static void write(Map<String, String> pages) throws IOException {
        Files.createDirectories(FOLDER);
        for (Map.Entry<String, String> page : pages.entrySet()) {
            Files.writeString(FOLDER.resolve(page.getKey()), page.getValue());
        }
    }
}
