package vestibule.validator.iod;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * A committed table: comment lines with its edition and source, then rows cut at tabs.
 *
 * @param edition the edition its header names
 * @param rows the rows in order
 */
public record TableText(String edition, List<List<String>> rows) {

    private static final String EDITION = "# edition: ";

    /**
     * Reads a table that lies beside a class.
     *
     * @throws IllegalStateException if the table is not in our jar or has a row of another width, for it is part of the program
     */
    public static TableText read(Class<?> home, String name, int columns) {
        try (InputStream in = home.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the table " + name + " is missing from this program");
            }
            return parse(name, new String(in.readAllBytes(), StandardCharsets.UTF_8), columns);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static TableText parse(String name, String text, int columns) {
        String edition = "";
        List<List<String>> rows = new ArrayList<>();
        for (String line : (Iterable<String>) text.lines()::iterator) {
            if (line.startsWith(EDITION)) {
                edition = line.substring(EDITION.length());
            } else if (!line.startsWith("#")) {
                List<String> row = List.of(line.split("\t", -1));
                if (row.size() != columns) {
                    throw new IllegalStateException("the table " + name + " has a row of " + row.size() + " columns");
                }
                rows.add(row);
            }
        }
        return new TableText(edition, List.copyOf(rows));
    }
}
