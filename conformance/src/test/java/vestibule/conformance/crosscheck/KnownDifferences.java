package vestibule.conformance.crosscheck;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/** The table of differences between readers that have a reason; a row that explains nothing is reported, so that it goes away. */
final class KnownDifferences {

    private record Row(String peer, Pattern file, Pattern difference, String reason) {}

    private final List<Row> rows;
    private final Set<Row> used = new HashSet<>();

    private KnownDifferences(List<Row> rows) {
        this.rows = rows;
    }

    /** The rows for one peer. */
    static KnownDifferences of(String peer) throws IOException {
        try (InputStream in = KnownDifferences.class.getResourceAsStream("known-differences.tsv")) {
            String text = new String(java.util.Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
            return new KnownDifferences(text.lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> line.split("\t"))
                    .map(cells -> new Row(cells[0], Pattern.compile(cells[1]), Pattern.compile(cells[2]), cells[3]))
                    .filter(row -> row.peer.equals(peer))
                    .toList());
        }
    }

    /** The differences that no row explains. */
    List<String> unexplained(String file, List<String> differences) {
        List<String> unexplained = new ArrayList<>();
        for (String difference : differences) {
            List<Row> reasons = rows.stream()
                    .filter(row -> row.file.matcher(file).find()
                            && row.difference.matcher(difference).find())
                    .toList();
            used.addAll(reasons);
            if (reasons.isEmpty()) {
                unexplained.add(file + " " + difference);
            }
        }
        return unexplained;
    }

    /** Rows that explained nothing. */
    List<String> idle() {
        return rows.stream()
                .filter(row -> !used.contains(row))
                .map(row -> row.file + " " + row.difference)
                .toList();
    }
}
