package vestibule.bridge.sheet;

import java.util.List;
import java.util.Optional;

/**
 * One photograph on the page.
 *
 * @param name what it is called, as the file on the card
 * @param standing how far it is decided
 * @param view the view in words; empty where nobody knows it
 * @param side which side of the patient it shows, in words
 * @param orientation Patient Orientation, where rows and columns run; empty where nobody knows it
 * @param facts further lines, as teeth, capture and stage
 * @param message what is in doubt
 * @param picture the small picture, a JPEG stream; empty where none can be shown
 */
public record Card(
        String name,
        Standing standing,
        Optional<String> view,
        String side,
        Optional<Directions> orientation,
        List<String> facts,
        Optional<String> message,
        Optional<byte[]> picture) {

    public Card {
        facts = List.copyOf(facts);
    }

    /** How far a photograph is decided. */
    public enum Standing {
        /** Decided, and as it will be filed. */
        DECIDED("decided"),
        /** A proposal that a person has to accept. */
        PROPOSED("proposal: to be confirmed"),
        /** A person has to say what it is. */
        DOUBTFUL("needs a person"),
        /** As it lies in its object. */
        FILED("as filed"),
        /** As the camera recorded it: left and right may be exchanged. */
        UNCORRECTED("uncorrected, as recorded");

        private final String words;

        Standing(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /**
     * Where rows and columns run in the patient, in the letters A P R L H F.
     *
     * @param rows left to right
     * @param columns top to bottom
     */
    public record Directions(String rows, String columns) {

        /** Each letter turned round: the other end of the same axis. */
        static String opposite(String letters) {
            StringBuilder turned = new StringBuilder();
            for (int i = 0; i < letters.length(); i++) {
                char letter = letters.charAt(i);
                int at = "RLAPHF".indexOf(letter);
                turned.append(at < 0 ? letter : "LRPAFH".charAt(at));
            }
            return turned.toString();
        }
    }
}
