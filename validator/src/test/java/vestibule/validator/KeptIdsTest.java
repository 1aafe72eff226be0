package vestibule.validator;

import static java.util.stream.Collectors.toMap;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** A new rule gets a line in {@code rule-ids.tsv}; a rule that is given up keeps its line as {@code withdrawn}. */
@DisplayName("Ids of rules")
class KeptIdsTest {

    private record Kept(String id, String state, String requires) {}

    private static List<Kept> kept() throws IOException {
        try (InputStream list = Objects.requireNonNull(KeptIdsTest.class.getResourceAsStream("rule-ids.tsv"))) {
            return new String(list.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> line.split("\t", 3))
                    .map(part -> new Kept(part[0], part[1], part[2]))
                    .toList();
        }
    }

    @Test
    @DisplayName("stand in the kept list once, used or withdrawn")
    void listIsSound() throws IOException {
        assertThat(kept().stream().map(Kept::id)).doesNotHaveDuplicates().isSorted();
        assertThat(kept()).allSatisfy(one -> assertThat(one.state()).isIn("used", "withdrawn"));
    }

    @Test
    @DisplayName("mean what they meant when they were given, and a withdrawn one belongs to no rule")
    void meanTheSame() throws IOException {
        Map<String, String> given =
                kept().stream().filter(one -> one.state().equals("used")).collect(toMap(Kept::id, Kept::requires));
        Map<String, String> declared =
                Validator.rules().stream().collect(toMap(rule -> rule.id().toString(), Rule::requires));
        assertThat(declared).isEqualTo(given);
    }
}
