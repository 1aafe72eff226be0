package vestibule.bridge.view;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/** Reads the committed tables: lines of columns parted by tabs, comments after {@code #}. */
final class Tables {

    private Tables() {}

    /** The rows of a table, each of that many columns. */
    static List<String[]> rows(String table, int columns) {
        List<String[]> rows = text(table)
                .orElseThrow(() -> new IllegalStateException("the table " + table + " is missing from this program"))
                .lines()
                .filter(line -> !line.startsWith("#") && !line.isBlank())
                .map(line -> line.split("\t", -1))
                .toList();
        if (rows.stream().anyMatch(row -> row.length != columns)) {
            throw new IllegalStateException("the table " + table + " has a row that is not of " + columns + " columns");
        }
        return rows;
    }

    /** The text of a resource of this package, if there is one. */
    static Optional<String> text(String name) {
        try (InputStream in = Tables.class.getResourceAsStream(name)) {
            return in == null ? Optional.empty() : Optional.of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A column that may be empty. */
    static Optional<String> known(String column) {
        return column.isEmpty() ? Optional.empty() : Optional.of(column);
    }

    /** A column of words parted by blanks. */
    static List<String> words(String column) {
        return column.isEmpty() ? List.of() : List.of(column.split(" "));
    }
}
