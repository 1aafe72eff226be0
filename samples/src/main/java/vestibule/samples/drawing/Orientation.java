package vestibule.samples.drawing;

/**
 * Where a raster points in the patient (PS3.3 C.7.6.1.1.1).
 *
 * @param rows letters for the way from the viewer's left to right, of A P L R H F
 * @param columns letters for the way from top to bottom
 */
public record Orientation(String rows, String columns) {
    private static final String LETTERS = "LRPAHF";

    /** Reads the two values of Patient Orientation, joined by a backslash. */
    public static Orientation of(String value) {
        int stroke = value.indexOf('\\');
        if (stroke < 1 || stroke == value.length() - 1) {
            throw new IllegalArgumentException(
                    "Patient Orientation: found " + value + ", expected two values joined by a backslash");
        }
        return new Orientation(value.substring(0, stroke), value.substring(stroke + 1));
    }

    /** What the same picture says after the raster was turned or flipped. */
    public Orientation after(Turn turn) {
        return switch (turn) {
            case NONE -> this;
            case ROTATE_90 -> new Orientation(opposite(columns), rows);
            case ROTATE_180 -> new Orientation(opposite(rows), opposite(columns));
            case ROTATE_270 -> new Orientation(columns, opposite(rows));
            case FLIP_HORIZONTAL -> new Orientation(opposite(rows), columns);
            case FLIP_VERTICAL -> new Orientation(rows, opposite(columns));
            case TRANSPOSE -> new Orientation(columns, rows);
            case TRANSVERSE -> new Orientation(opposite(columns), opposite(rows));
        };
    }

    /** The letters of the other way. */
    public static String opposite(String letters) {
        StringBuilder result = new StringBuilder();
        for (int i = 0; i < letters.length(); i++) {
            result.append(LETTERS.charAt(LETTERS.indexOf(letters.charAt(i)) ^ 1));
        }
        return result.toString();
    }

    /** The way the letters point; several letters share it equally. */
    static Vector3 direction(String letters) {
        Vector3 sum = Vector3.ZERO;
        for (int i = 0; i < letters.length(); i++) {
            sum = sum.plus(
                    switch (letters.charAt(i)) {
                        case 'L' -> new Vector3(1, 0, 0);
                        case 'R' -> new Vector3(-1, 0, 0);
                        case 'P' -> new Vector3(0, 1, 0);
                        case 'A' -> new Vector3(0, -1, 0);
                        case 'H' -> new Vector3(0, 0, 1);
                        case 'F' -> new Vector3(0, 0, -1);
                        default -> throw new IllegalArgumentException("no anatomical direction: " + letters);
                    });
        }
        return sum.unit();
    }

    /** As Patient Orientation (0020,0020) is written. */
    @Override
    public String toString() {
        return rows + "\\" + columns;
    }
}
