package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The numbers of rules")
class RuleNumbersTest {

    /** A line of the list that is kept for ever. */
    private record Line(String family, int number, String what) {
        String id() {
            return String.format(Locale.ROOT, "%s-%03d", family, number);
        }
    }

    private static List<Line> lines() throws IOException {
        try (InputStream in =
                Objects.requireNonNull(RuleNumbersTest.class.getResourceAsStream("rule-numbers.tsv"), "the list")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> line.split("\t", -1))
                    .map(cells -> new Line(cells[0], Integer.parseInt(cells[1]), cells[2]))
                    .toList();
        }
    }

    private static Set<String> given(String what) throws IOException {
        return lines().stream()
                .filter(line -> line.what().equals(what))
                .map(Line::id)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Set<String> inUse() {
        return Validator.rules().stream()
                .map(rule -> rule.id().toString())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    @DisplayName("that a rule once had are given to no other, and none is missing without a word")
    void neverReused() throws IOException {
        assertThat(inUse()).doesNotContainAnyElementsOf(given("retired"));
        Set<String> accounted = new TreeSet<>(inUse());
        accounted.addAll(given("retired"));
        accounted.addAll(given("never given"));
        for (Line line : lines()) {
            if (line.what().equals("highest")) {
                for (int number = 1; number <= line.number(); number++) {
                    assertThat(accounted).contains(new Line(line.family(), number, "").id());
                }
            }
        }
    }

    @Test
    @DisplayName("are in use or in the list, not both, and every family has its line")
    void listIsTrue() throws IOException {
        assertThat(inUse()).doesNotContainAnyElementsOf(given("never given"));
        assertThat(given("highest").stream().map(id -> id.substring(0, 3)))
                .containsExactlyInAnyOrderElementsOf(inUse().stream()
                        .map(id -> id.substring(0, 3))
                        .distinct()
                        .toList());
    }
}
