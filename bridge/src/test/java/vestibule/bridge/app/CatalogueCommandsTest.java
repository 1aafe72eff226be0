package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("views and sets, printed")
class CatalogueCommandsTest {

    @TempDir
    Path folder;

    private static JsonNode json(String... words) {
        Ran ran = Ran.vestibule(words);
        assertThat(ran.exit()).as(ran.err()).isZero();
        return JsonMapper.builder().build().readTree(ran.out());
    }

    private static List<String> each(JsonNode array, String member) {
        return StreamSupport.stream(array.spliterator(), false)
                .map(one -> one.get(member).asString())
                .toList();
    }

    @Test
    @DisplayName("sets name views that there are, in places counted from 1; what programs read, people read too")
    void sets() {
        List<String> views = each(json("views", "--json").get("views"), "id");
        String printed = Ran.vestibule("sets").out();
        JsonNode sets = json("sets", "--json").get("sets");
        assertThat(sets.size()).isPositive();
        for (JsonNode set : sets) {
            assertThat(printed).contains(set.get("id").asString());
            int position = 0;
            for (JsonNode place : set.get("places")) {
                assertThat(place.get("position").asInt()).isEqualTo(++position);
                assertThat(place.get("views").size()).isPositive();
                for (JsonNode view : place.get("views")) {
                    assertThat(views).contains(view.asString());
                    assertThat(printed).contains(view.asString());
                }
            }
        }
    }

    @Test
    @DisplayName("a set or view of the practice stands beside those of the catalogue, and one alone is printed alone")
    void own() throws IOException {
        Path config = Files.writeString(folder.resolve("vestibule.toml"), """
                [sets.own.recall]
                name = "Recall"
                views = ["teeth-front-occlusion", "occlusal-maxillary-mirror, optional"]
                [views.labels]
                teeth-front-occlusion = "Front, closed"
                """);
        JsonNode sets =
                json("sets", "recall", "--json", "--config", config.toString()).get("sets");
        assertThat(each(sets, "id")).containsExactly("recall");
        assertThat(Ran.vestibule("sets", "recall", "--config", config.toString())
                        .out())
                .contains("Front, closed", "required", "optional")
                .doesNotContain("ortho-records-8");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "audit --to dicom://127.0.0.1:1/X --date 2026-13-40|--date: found \"2026-13-40\", expected a day as YYYY-MM-DD.",
                "archive --folder x --port 99999|--port: found \"99999\", expected a whole number from 0 to 65535."
            })
    @DisplayName("a value of another form is repeated in the sentence")
    void repeatsTheValue(String line, String sentence) {
        Ran ran = Ran.vestibule(line.split(" ", -1));
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).isEqualTo("vestibule %s: %s%n".formatted(line.split(" ", -1)[0], sentence));
    }

    @Test
    @DisplayName("a birth date of another form is not repeated, for it is a person's")
    void keepsPersonsOut() {
        Ran ran = Ran.vestibule(
                "wrap",
                "x.jpg",
                "--out",
                "x.dcm",
                "--view",
                "smile-front",
                "--patient-id",
                "4711",
                "--patient-name",
                "Exempel^Zoe",
                "--birth-date",
                "1987-2-28");
        assertThat(ran.exit()).as(ran.err()).isEqualTo(2);
        assertThat(ran.err())
                .contains("--birth-date: found something else, expected a day")
                .doesNotContain("1987");
    }

    @ParameterizedTest
    @DisplayName("one that there is not, or two, is a wrong command line, in one sentence")
    @ValueSource(strings = {"sets no-such-set", "sets ortho-records-8 more", "views no-such-view"})
    void wrong(String line) {
        Ran ran = Ran.vestibule(line.split(" ", -1));
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err().lines()).hasSize(1);
    }
}
