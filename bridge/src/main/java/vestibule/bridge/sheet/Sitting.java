package vestibule.bridge.sheet;

import java.util.List;
import java.util.Optional;

/**
 * Photographs of one patient on the page.
 *
 * @param patient name, as people write it; empty where nobody knows yet who it is
 * @param identifiers the patient's identifiers with their names, as {@code ID 4711 (LINDEN)} and {@code born 1980-02-03}
 * @param heading what the sitting is, as its day, its study and its set
 * @param missing the views of the set that no photograph shows
 * @param earlier earlier photographs of the same views, one line each
 * @param cards its photographs
 */
public record Sitting(
        Optional<String> patient,
        List<String> identifiers,
        List<String> heading,
        List<String> missing,
        List<String> earlier,
        List<Card> cards) {

    public Sitting {
        identifiers = List.copyOf(identifiers);
        heading = List.copyOf(heading);
        missing = List.copyOf(missing);
        earlier = List.copyOf(earlier);
        cards = List.copyOf(cards);
    }
}
