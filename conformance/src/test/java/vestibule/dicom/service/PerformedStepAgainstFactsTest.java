package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.conformance.Corpus;

@DisplayName("What a performed procedure step must have, against the facts of the standard (PS3.4 Table F.7.2-1)")
class PerformedStepAgainstFactsTest {

    /** Inside these sequences the table is followed too; deeper ones ask for what the step itself cannot lack. */
    private static final Set<String> FOLLOWED = Set.of("ScheduledStepAttributesSequence", "PerformedSeriesSequence");

    private static JsonNode facts() throws IOException {
        Optional<Path> path = Corpus.shared()
                .map(shared -> shared.resolve("standard").resolve("services.json"))
                .filter(Files::isRegularFile);
        assumeTrue(path.isPresent(), "the facts of the standard are not here");
        return JsonMapper.builder()
                .build()
                .readTree(Files.readString(path.orElseThrow()))
                .path("mpps");
    }

    private static void collect(String sequence, JsonNode attributes, Set<String> rows) {
        for (JsonNode attribute : attributes) {
            String tag = attribute.path("tag").asString("").replaceAll("[(),]", "");
            String created = attribute.path("create").asString("").split("/", 2)[0];
            boolean changeable = !attribute.path("set").asString("").equals("no");
            String ended = attribute.path("final").asString("-").startsWith("see")
                    ? "-"
                    : attribute.path("final").asString("-");
            String keyword = attribute.path("keyword").asString("");
            boolean asks = List.of("1", "2").contains(created) || (sequence.isEmpty() && !changeable);
            if (!tag.isEmpty() && asks) {
                rows.add(String.join(" ", sequence + tag, created, changeable ? "yes" : "no", ended, keyword));
            }
            if (FOLLOWED.contains(keyword)) {
                collect(tag + ">", attribute.path("attributes"), rows);
            }
        }
    }

    @Test
    @DisplayName("row for row")
    void rows() throws IOException {
        Set<String> wanted = new TreeSet<>();
        collect("", facts().path("attributes"), wanted);
        Set<String> ours = new TreeSet<>();
        PerformedStepRules.TABLE_F_7_2_1.lines().forEach(line -> ours.add(line.replaceAll(" +", " ")));
        assertThat(wanted).hasSizeGreaterThan(40);
        assertThat(ours).isEqualTo(wanted);
    }

    @Test
    @DisplayName("states, final ones among them")
    void states() throws IOException {
        Set<String> states = new TreeSet<>(PerformedStepRules.FINAL);
        states.add(PerformedStepRules.IN_PROGRESS);
        Set<String> wanted = new TreeSet<>();
        facts().path("states").forEach(state -> wanted.add(state.asString()));
        assertThat(states).isEqualTo(wanted);
        assertThat(facts().path("rules").toString())
                .contains("0110")
                .contains("%04X".formatted(PerformedStepProvider.MAY_NO_LONGER_BE_UPDATED));
    }
}
