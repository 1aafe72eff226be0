package vestibule.bridge.view;

import java.util.Arrays;
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

    /**
     * Whether rows and columns are legal: letters of different axes in each value, and no axis in both (PS3.3 C.7.6.1.1.1).
     */
    public boolean legal() {
        String axes = axes(rows) + axes(columns);
        return !rows.isEmpty()
                && !columns.isEmpty()
                && axes.indexOf('?') < 0
                && axes.chars().distinct().count() == axes.length();
    }

    private static String axes(String letters) {
        return letters.codePoints()
                .mapToObj(letter -> switch (letter) {
                    case 'A', 'P' -> "1";
                    case 'R', 'L' -> "2";
                    case 'H', 'F' -> "3";
                    default -> "?";
                })
                .collect(Collectors.joining());
    }

    /**
     * Whether the picture shows things as they are rather than mirrored: rows across columns point the way the camera looks (trade facts
     * F-02).
     *
     * @param look where the camera looks in the patient
     */
    public boolean unmirrored(String look) {
        double[] across = cross(vector(rows), vector(columns));
        double[] along = vector(look);
        return across[0] * along[0] + across[1] * along[1] + across[2] * along[2] > 0;
    }

    private static double[] cross(double[] a, double[] b) {
        return new double[] {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
    }

    /** Left, posterior and head as positive axes; the first letter is the main direction. */
    private static double[] vector(String letters) {
        double[] vector = new double[3];
        double weight = 1;
        for (int i = 0; i < letters.length(); i++, weight *= 0.9) {
            switch (letters.charAt(i)) {
                case 'L' -> vector[0] += weight;
                case 'R' -> vector[0] -= weight;
                case 'P' -> vector[1] += weight;
                case 'A' -> vector[1] -= weight;
                case 'H' -> vector[2] += weight;
                case 'F' -> vector[2] -= weight;
                default -> throw new IllegalStateException("an orientation has the letters A P R L H F");
            }
        }
        return vector;
    }

    /** The turn that leads from this orientation to another, if one does; the order of letters in a value does not count. */
    Optional<Turn> turnTo(Orientation other) {
        return Arrays.stream(Turn.values())
                .filter(turn -> after(turn).sameDirections(other))
                .findFirst();
    }

    private boolean sameDirections(Orientation other) {
        return sorted(rows).equals(sorted(other.rows)) && sorted(columns).equals(sorted(other.columns));
    }

    private static String sorted(String letters) {
        char[] sorted = letters.toCharArray();
        Arrays.sort(sorted);
        return new String(sorted);
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
