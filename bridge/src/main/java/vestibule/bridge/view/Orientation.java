package vestibule.bridge.view;

import java.util.Optional;
import java.util.stream.Collectors;
import vestibule.dicom.jpeg.Turn;

/**
 * Patient Orientation (PS3.3 C.7.6.1.1.1): where the rows and the columns of a picture run in the patient.
 *
 * @param rows where the viewer's left to right points, as {@code L} or {@code LA}
 * @param columns where top to bottom points, as {@code F}
 */
public record Orientation(String rows, String columns) {

    /** Reads two values parted by a backslash; empty if they are not two. */
    public static Optional<Orientation> parse(String text) {
        int parted = text.indexOf('\\');
        return parted < 0
                ? Optional.empty()
                : Optional.of(new Orientation(text.substring(0, parted), text.substring(parted + 1)));
    }

    /** The orientation of the picture once it was turned so. */
    public Orientation after(Turn turn) {
        return switch (turn) {
            case NONE -> this;
            case FLIP_HORIZONTAL -> new Orientation(opposite(rows), columns);
            case FLIP_VERTICAL -> new Orientation(rows, opposite(columns));
            case ROTATE_90 -> new Orientation(opposite(columns), rows);
            case ROTATE_180 -> new Orientation(opposite(rows), opposite(columns));
            case ROTATE_270 -> new Orientation(columns, opposite(rows));
            case TRANSPOSE -> new Orientation(columns, rows);
            case TRANSVERSE -> new Orientation(opposite(columns), opposite(rows));
        };
    }

    private static String opposite(String letters) {
        return letters.codePoints()
                .mapToObj(letter -> switch (letter) {
                    case 'A' -> "P";
                    case 'P' -> "A";
                    case 'R' -> "L";
                    case 'L' -> "R";
                    case 'H' -> "F";
                    case 'F' -> "H";
                    default -> throw new IllegalStateException("an orientation has the letters A P R L H F");
                })
                .collect(Collectors.joining());
    }

    /** The two values parted by a backslash. */
    @Override
    public String toString() {
        return rows + "\\" + columns;
    }
}
