package vestibule.validator.rules;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.validator.iod.TableText;

/** The views of clinical dental photographs, as far as an object can be compared with them. */
public final class ViewTable {

    /**
     * A view.
     *
     * @param id the word for it
     * @param taken {@code mirror}, {@code direct} or {@code either}
     * @param mode {@code fixed} if it has a direction of its own, {@code inherit} if it shares another's, {@code none} if it has none
     * @param accepted values of Patient Orientation of the finished picture, rows and columns parted by a backslash
     * @param look where the camera, or its reflection, looks in the patient
     * @param side R or L, where what is shown is one of a pair; else empty
     */
    record View(String id, String taken, String mode, List<String> accepted, String look, String side) {
        boolean hasDirection() {
            return mode.equals("fixed");
        }

        /** R or L if it shows one side, of a face too, which is not one of a pair; empty if it shows both sides or none. */
        String shownSide() {
            if (side.isEmpty() && look.contains("L")) {
                return "R";
            }
            return side.isEmpty() && look.contains("R") ? "L" : side;
        }

        /** Whether it shows no part of a patient. */
        boolean isOfNoBody() {
            return mode.equals("none");
        }
    }

    private static final ViewTable STANDARD = new ViewTable();

    private final Map<String, View> views = new HashMap<>();

    private ViewTable() {
        for (List<String> row : TableText.read(ViewTable.class, "views.tsv", 6).rows()) {
            views.put(
                    row.get(0),
                    new View(
                            row.get(0),
                            row.get(1),
                            row.get(2),
                            List.of(row.get(3).split(" ", -1)),
                            row.get(4),
                            row.get(5)));
        }
    }

    /** The table that comes with the program. */
    public static ViewTable standard() {
        return STANDARD;
    }

    /** Whether there is a view of that word. */
    public boolean knows(String id) {
        return views.containsKey(id);
    }

    /** The view of that word; empty for the words of others. */
    Optional<View> find(String id) {
        return Optional.ofNullable(views.get(id));
    }
}
