package vestibule.dicom.net.upper;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Table 9-10 of PS3.8: which action an event asks for in a state. A pure function; empty cells are events that cannot happen there. */
public final class StateTable {

    /** Rows are events, columns the states Sta1 to Sta13, as the standard prints them. */
    private static final String TABLE_9_10 = """
            .      1     2     3     4     5     6     7     8     9     10    11    12    13
            EVT1   AE_1  -     -     -     -     -     -     -     -     -     -     -     -
            EVT2   -     -     -     AE_2  -     -     -     -     -     -     -     -     -
            EVT3   -     AA_1  AA_8  -     AE_3  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_6
            EVT4   -     AA_1  AA_8  -     AE_4  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_6
            EVT5   AE_5  -     -     -     -     -     -     -     -     -     -     -     -
            EVT6   -     AE_6  AA_8  -     AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_7
            EVT7   -     -     AE_7  -     -     -     -     -     -     -     -     -     -
            EVT8   -     -     AE_8  -     -     -     -     -     -     -     -     -     -
            EVT9   -     -     -     -     -     DT_1  -     AR_7  -     -     -     -     -
            EVT10  -     AA_1  AA_8  -     AA_8  DT_2  AR_6  AA_8  AA_8  AA_8  AA_8  AA_8  AA_6
            EVT11  -     -     -     -     -     AR_1  -     -     -     -     -     -     -
            EVT12  -     AA_1  AA_8  -     AA_8  AR_2  AR_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_6
            EVT13  -     AA_1  AA_8  -     AA_8  AA_8  AR_3  AA_8  AA_8  AR_10 AR_3  AA_8  AA_6
            EVT14  -     -     -     -     -     -     -     AR_4  AR_9  -     -     AR_4  -
            EVT15  -     -     AA_1  AA_2  AA_1  AA_1  AA_1  AA_1  AA_1  AA_1  AA_1  AA_1  -
            EVT16  -     AA_2  AA_3  -     AA_3  AA_3  AA_3  AA_3  AA_3  AA_3  AA_3  AA_3  AA_2
            EVT17  -     AA_5  AA_4  AA_4  AA_4  AA_4  AA_4  AA_4  AA_4  AA_4  AA_4  AA_4  AR_5
            EVT18  -     AA_2  -     -     -     -     -     -     -     -     -     -     AA_2
            EVT19  -     AA_1  AA_8  -     AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_8  AA_7
            """;

    private static final Map<Event, Map<State, Action>> ACTIONS = parse();

    private StateTable() {}

    private static Map<Event, Map<State, Action>> parse() {
        Map<Event, Map<State, Action>> actions = new EnumMap<>(Event.class);
        List<String> lines = TABLE_9_10.lines().toList();
        String[] states = lines.get(0).split(" +", -1);
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split(" +", -1);
            Map<State, Action> row = new EnumMap<>(State.class);
            for (int column = 1; column < states.length; column++) {
                if (!cells[column].equals("-")) {
                    row.put(State.valueOf("STA" + states[column]), Action.valueOf(cells[column]));
                }
            }
            actions.put(Event.valueOf(cells[0]), row);
        }
        return actions;
    }

    /** The action for an event in a state; empty where the table has none. */
    public static Optional<Action> action(State state, Event event) {
        Map<State, Action> row = ACTIONS.getOrDefault(event, Map.of());
        return Optional.ofNullable(row.get(state));
    }
}
