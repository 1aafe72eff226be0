package vestibule.dicom.net.upper;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

@DisplayName("The state table of the upper layer (PS3.8 Table 9-10)")
class StateTableTest {

    /** Table 9-10 turned round: for each state, which event asks for which action. All pairs that are not here have no action. */
    private static final String BY_STATE = """
            Sta1   1:AE-1 5:AE-5
            Sta2   3:AA-1 4:AA-1 6:AE-6 10:AA-1 12:AA-1 13:AA-1 16:AA-2 17:AA-5 18:AA-2 19:AA-1
            Sta3   3:AA-8 4:AA-8 6:AA-8 7:AE-7 8:AE-8 10:AA-8 12:AA-8 13:AA-8 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta4   2:AE-2 15:AA-2 17:AA-4
            Sta5   3:AE-3 4:AE-4 6:AA-8 10:AA-8 12:AA-8 13:AA-8 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta6   3:AA-8 4:AA-8 6:AA-8 9:DT-1 10:DT-2 11:AR-1 12:AR-2 13:AA-8 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta7   3:AA-8 4:AA-8 6:AA-8 10:AR-6 12:AR-8 13:AR-3 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta8   3:AA-8 4:AA-8 6:AA-8 9:AR-7 10:AA-8 12:AA-8 13:AA-8 14:AR-4 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta9   3:AA-8 4:AA-8 6:AA-8 10:AA-8 12:AA-8 13:AA-8 14:AR-9 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta10  3:AA-8 4:AA-8 6:AA-8 10:AA-8 12:AA-8 13:AR-10 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta11  3:AA-8 4:AA-8 6:AA-8 10:AA-8 12:AA-8 13:AR-3 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta12  3:AA-8 4:AA-8 6:AA-8 10:AA-8 12:AA-8 13:AA-8 14:AR-4 15:AA-1 16:AA-3 17:AA-4 19:AA-8
            Sta13  3:AA-6 4:AA-6 6:AA-7 10:AA-6 12:AA-6 13:AA-6 16:AA-2 17:AR-5 18:AA-2 19:AA-7
            """;

    /** The states after each action (PS3.8 Tables 9-6 to 9-9); two where the role decides, requestor first. */
    private static final String NEXT_STATES = """
            AE-1   Sta4
            AE-2   Sta5
            AE-3   Sta6
            AE-4   Sta1
            AE-5   Sta2
            AE-6   Sta3
            AE-7   Sta6
            AE-8   Sta13
            DT-1   Sta6
            DT-2   Sta6
            AR-1   Sta7
            AR-2   Sta8
            AR-3   Sta1
            AR-4   Sta13
            AR-5   Sta1
            AR-6   Sta7
            AR-7   Sta8
            AR-8   Sta9/Sta10
            AR-9   Sta11
            AR-10  Sta12
            AA-1   Sta13
            AA-2   Sta1
            AA-3   Sta1
            AA-4   Sta1
            AA-5   Sta1
            AA-6   Sta13
            AA-7   Sta13
            AA-8   Sta13
            """;

    private static Map<String, String> expected() {
        Map<String, String> expected = new HashMap<>();
        BY_STATE.lines().forEach(line -> {
            String[] words = line.split(" +", -1);
            for (int i = 1; i < words.length; i++) {
                String[] pair = words[i].split(":", -1);
                expected.put(words[0] + " Evt" + pair[0], pair[1]);
            }
        });
        return expected;
    }

    private static String inTheStandardsLetters(Enum<?> constant) {
        return constant.name().charAt(0) + constant.name().substring(1).toLowerCase(java.util.Locale.ROOT);
    }

    @TestFactory
    @DisplayName("each of the 13 x 19 cells")
    Stream<DynamicTest> cells() {
        Map<String, String> expected = expected();
        List<DynamicTest> tests = new ArrayList<>();
        for (State state : State.values()) {
            for (Event event : Event.values()) {
                String cell = inTheStandardsLetters(state) + " " + inTheStandardsLetters(event);
                String wanted = expected.getOrDefault(cell, "no action");
                tests.add(DynamicTest.dynamicTest(
                        cell + ": " + wanted,
                        () -> assertThat(StateTable.action(state, event)
                                        .map(action -> action.name().replace('_', '-'))
                                        .orElse("no action"))
                                .isEqualTo(wanted)));
            }
        }
        assertThat(tests).hasSize(13 * 19);
        return tests.stream();
    }

    @TestFactory
    @DisplayName("the state after each action, for both roles")
    Stream<DynamicTest> nextStates() {
        return NEXT_STATES.lines().map(line -> {
            String[] words = line.split(" +", -1);
            String[] states = words[1].split("/", -1);
            return DynamicTest.dynamicTest(line, () -> {
                Action action = Action.valueOf(words[0].replace('-', '_'));
                assertThat(inTheStandardsLetters(action.next(true))).isEqualTo(states[0]);
                assertThat(inTheStandardsLetters(action.next(false))).isEqualTo(states[states.length - 1]);
            });
        });
    }

    @Test
    @DisplayName(
            "whatever happens while an association is being given up, only the timer, the peer's abort or its closing ends it")
    void lastState() {
        List<Event> ends = new ArrayList<>();
        for (Event event : Event.values()) {
            StateTable.action(State.STA13, event)
                    .filter(action -> action.next(true) == State.STA1)
                    .ifPresent(action -> ends.add(event));
        }
        assertThat(ends).containsExactly(Event.EVT16, Event.EVT17, Event.EVT18);
    }

    @Test
    @DisplayName("an action that ends in waiting for the close starts the ARTIM timer, unless it runs already")
    void timer() {
        for (Action action : Action.values()) {
            boolean entersSta13 = action.next(true) == State.STA13 && action != Action.AA_6 && action != Action.AA_7;
            assertThat(action.effects().contains(Effect.START_ARTIM))
                    .as(action.name())
                    .isEqualTo(entersSta13 || action == Action.AE_5);
        }
    }
}
