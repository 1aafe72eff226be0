package vestibule.bridge.app;

import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A table in text: each column as wide as its widest cell. */
final class TextTable {

    private static final String GAP = "  ";

    private TextTable() {}

    /** Prints rows that all have the same columns, with the names of the columns above them. */
    static void print(List<Map<String, String>> rows, PrintStream out) {
        List<String> columns = List.copyOf(rows.get(0).keySet());
        int[] widths = columns.stream()
                .mapToInt(column -> Math.max(
                        width(column),
                        rows.stream()
                                .mapToInt(row -> width(row.getOrDefault(column, "")))
                                .max()
                                .orElse(0)))
                .toArray();
        StringBuilder header = new StringBuilder();
        for (int i = 0; i < widths.length; i++) {
            header.append(padded(columns.get(i).toUpperCase(Locale.ROOT), widths[i]))
                    .append(GAP);
        }
        out.println(header.toString().stripTrailing());
        for (Map<String, String> row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < widths.length; i++) {
                line.append(padded(row.getOrDefault(columns.get(i), ""), widths[i]))
                        .append(GAP);
            }
            out.println(line.toString().stripTrailing());
        }
    }

    private static String padded(String text, int width) {
        return text + " ".repeat(Math.max(0, width - width(text)));
    }

    /** Columns of a terminal: ideographs and full-width forms take two (common practice of terminals, from memory). */
    private static int width(String text) {
        return text.codePoints().map(TextTable::cells).sum();
    }

    private static int cells(int character) {
        Character.UnicodeScript script = Character.UnicodeScript.of(character);
        boolean wide = script == Character.UnicodeScript.HAN
                || script == Character.UnicodeScript.HIRAGANA
                || script == Character.UnicodeScript.KATAKANA
                || script == Character.UnicodeScript.HANGUL;
        return wide ? 2 : 1;
    }
}
