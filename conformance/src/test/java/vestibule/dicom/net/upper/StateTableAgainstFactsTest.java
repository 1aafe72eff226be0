package vestibule.dicom.net.upper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.conformance.Corpus;

@DisplayName("The state table against the facts of the standard (PS3.8 Table 9-10)")
class StateTableAgainstFactsTest {

    private static JsonNode facts() throws IOException {
        Optional<Path> path = Corpus.shared()
                .map(shared -> shared.resolve("standard").resolve("network.json"))
                .filter(Files::isRegularFile);
        assumeTrue(path.isPresent(), "the facts of the standard are not here");
        return JsonMapper.builder()
                .build()
                .readTree(Files.readString(path.orElseThrow()))
                .path("stateMachine");
    }

    @Test
    @DisplayName("each of the 13 x 19 cells, the empty ones too")
    void cells() throws IOException {
        JsonNode facts = facts();
        Map<String, JsonNode> events = new HashMap<>();
        facts.path("events").forEach(event -> events.put(event.path("id").asString(), event.path("do")));
        assertThat(events).hasSize(19);
        assertThat(facts.path("states").size()).isEqualTo(13);
        int cells = 0;
        int actions = 0;
        for (Event event : Event.values()) {
            JsonNode row = events.get(inTheStandardsLetters(event));
            assertThat(row).as(event.name()).isNotNull();
            for (State state : State.values()) {
                String wanted = row.path(inTheStandardsLetters(state)).asString("");
                Optional<Action> action = StateTable.action(state, event);
                assertThat(action.map(some -> some.name().replace('_', '-')).orElse(""))
                        .as("%s in %s", event, state)
                        .isEqualTo(wanted);
                cells++;
                actions += wanted.isEmpty() ? 0 : 1;
            }
            actions -= row.size();
        }
        assertThat(cells).isEqualTo(13 * 19);
        assertThat(actions).as("cells of the facts that no state of ours has").isZero();
    }

    @Test
    @DisplayName("the state after each action")
    void nextStates() throws IOException {
        JsonNode actions = facts().path("actions");
        assertThat(actions.size()).isEqualTo(Action.values().length);
        for (Action action : Action.values()) {
            String wanted =
                    actions.path(action.name().replace('_', '-')).path(1).asString("");
            for (boolean requestor : new boolean[] {true, false}) {
                assertThat(wanted.split("[^A-Za-z0-9]+", -1))
                        .as(action.name())
                        .contains(inTheStandardsLetters(action.next(requestor)));
            }
        }
    }

    private static String inTheStandardsLetters(Enum<?> constant) {
        return constant.name().charAt(0) + constant.name().substring(1).toLowerCase(Locale.ROOT);
    }
}
