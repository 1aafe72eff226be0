package vestibule.bridge.settings;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Set;
import java.util.stream.Collectors;

/** The known key that was probably meant, so that a sentence about a wrong one need not list them all. */
final class Nearest {

    private Nearest() {}

    static String key(String wrong, Set<String> known) {
        return known.stream()
                .min(Comparator.<String>comparingInt(key -> distance(wrong, key))
                        .thenComparing(key -> key))
                .map(key -> key.replaceFirst("\\*$", "NAME"))
                .orElseThrow();
    }

    /** The right word in the wrong section is as near as one wrong letter. */
    private static int distance(String wrong, String key) {
        return key.endsWith(".*")
                ? edits(start(wrong, key.split("\\.", -1).length - 1), key.substring(0, key.length() - 2))
                : Math.min(edits(wrong, key), 1 + edits(last(wrong), last(key)));
    }

    /** As many words of a key as the name of a table has, below which a practice chooses its own. */
    private static String start(String key, int words) {
        return Arrays.stream(key.split("\\.", -1)).limit(words).collect(Collectors.joining("."));
    }

    private static String last(String key) {
        return key.substring(key.lastIndexOf('.') + 1);
    }

    /** How many letters must be put in, taken out or exchanged. */
    private static int edits(String from, String to) {
        int[] above = new int[to.length() + 1];
        for (int column = 0; column <= to.length(); column++) {
            above[column] = column;
        }
        for (int row = 1; row <= from.length(); row++) {
            int[] here = new int[to.length() + 1];
            here[0] = row;
            for (int column = 1; column <= to.length(); column++) {
                int exchanged = above[column - 1] + (from.charAt(row - 1) == to.charAt(column - 1) ? 0 : 1);
                here[column] = Math.min(exchanged, 1 + Math.min(above[column], here[column - 1]));
            }
            above = here;
        }
        return above[to.length()];
    }
}
