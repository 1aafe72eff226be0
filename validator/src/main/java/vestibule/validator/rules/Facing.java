package vestibule.validator.rules;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Where row and column of a picture point in the patient, as directions in space (PS3.3 C.7.6.1.1.1; L, P and H are positive). */
final class Facing {

    private static final String LETTERS = "LRPAHF";
    /** A second letter says a little less of the direction than the first. */
    private static final double NEXT = 0.9;

    private Facing() {}

    /** Whether there are two directions along different axes. */
    static boolean isUsable(List<String> directions) {
        return directions.size() == 2
                && directions.stream().allMatch(value -> value.matches("[LRPAHF]{1,3} *"))
                && axis(directions.get(0)) != axis(directions.get(1));
    }

    /** The axis along which a direction mainly points, 0 to 2. */
    static int axis(String direction) {
        return LETTERS.indexOf(direction.charAt(0)) / 2;
    }

    /** Where the camera looks, mainly: row × column. */
    static char look(List<String> directions) {
        int row = axis(directions.get(0));
        int column = axis(directions.get(1));
        int third = 3 - row - column;
        boolean cyclic = (row + 1) % 3 == column;
        boolean negative = LETTERS.indexOf(directions.get(0).charAt(0)) % 2 == 1
                ^ LETTERS.indexOf(directions.get(1).charAt(0)) % 2 == 1
                ^ !cyclic;
        return LETTERS.charAt(2 * third + (negative ? 1 : 0));
    }

    /** Whether the picture shows things as a camera that looks there sees them, not their mirror image. */
    static boolean looks(List<String> directions, String look) {
        double[] row = vector(directions.get(0));
        double[] column = vector(directions.get(1));
        double[] towards = vector(look);
        double along = 0;
        for (int i = 0; i < 3; i++) {
            int next = (i + 1) % 3;
            int last = (i + 2) % 3;
            along += (row[next] * column[last] - row[last] * column[next]) * towards[i];
        }
        return along > 0;
    }

    /** The same directions, however the letters of each are ordered. */
    static boolean same(List<String> directions, List<String> others) {
        return sorted(directions.get(0)).equals(sorted(others.get(0)))
                && sorted(directions.get(1)).equals(sorted(others.get(1)));
    }

    /** The directions after half a turn. */
    static List<String> halfTurned(List<String> directions) {
        return directions.stream().map(Facing::opposite).toList();
    }

    /** The directions after a turn or flip, in the words of {@link Taking#correction}; empty for other words. */
    static Optional<List<String>> turned(List<String> directions, String correction) {
        String row = directions.get(0);
        String column = directions.get(1);
        return switch (correction) {
            case "flip-horizontal" -> Optional.of(List.of(opposite(row), column));
            case "flip-vertical" -> Optional.of(List.of(row, opposite(column)));
            case "transpose" -> Optional.of(List.of(column, row));
            case "transverse" -> Optional.of(List.of(opposite(column), opposite(row)));
            case "turn-90" -> Optional.of(List.of(opposite(column), row));
            case "turn-180" -> Optional.of(halfTurned(directions));
            case "turn-270" -> Optional.of(List.of(column, opposite(row)));
            default -> Optional.empty();
        };
    }

    private static String opposite(String direction) {
        StringBuilder opposite = new StringBuilder();
        direction.strip().chars().forEach(letter -> opposite.append(LETTERS.charAt(LETTERS.indexOf(letter) ^ 1)));
        return opposite.toString();
    }

    private static String sorted(String letters) {
        char[] sorted = letters.strip().toCharArray();
        Arrays.sort(sorted);
        return new String(sorted);
    }

    private static double[] vector(String letters) {
        double[] vector = new double[3];
        double weight = 1;
        for (char letter : letters.strip().toCharArray()) {
            int place = LETTERS.indexOf(letter);
            vector[place / 2] += place % 2 == 0 ? weight : -weight;
            weight *= NEXT;
        }
        return vector;
    }
}
