package vestibule.dicom.dict;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * A committed table of the standard: comment lines with its edition and source, then rows cut at tabs.
 *
 * @param edition the edition its header names
 * @param rows the rows in order
 */
record Table(String edition, List<String[]> rows) {

    private static final String EDITION = "# edition: ";

    /** @throws IllegalStateException if the table is not in our jar or has a row of another width, for it is part of the program */
    static Table read(String name, int columns) {
        try (InputStream in = Table.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the table " + name + " is missing from this program");
            }
            String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            String edition = "";
            List<String[]> rows = new ArrayList<>();
            for (String line : (Iterable<String>) text.lines()::iterator) {
                if (line.startsWith(EDITION)) {
                    edition = line.substring(EDITION.length());
                } else if (!line.startsWith("#")) {
                    String[] row = line.split("\t", -1);
                    if (row.length != columns) {
                        throw new IllegalStateException(
                                "the table " + name + " has a row of " + row.length + " columns");
                    }
                    rows.add(row);
                }
            }
            return new Table(edition, rows);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
