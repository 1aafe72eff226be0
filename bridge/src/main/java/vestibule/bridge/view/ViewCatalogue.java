package vestibule.bridge.view;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.Code;

/** The views a photograph may show, the codes they use and the teeth, read from the committed tables. */
public final class ViewCatalogue {

    private static final ViewCatalogue STANDARD = new ViewCatalogue();

    private final Map<String, Code> codes = new LinkedHashMap<>();
    private final Map<String, Tooth> teeth = new LinkedHashMap<>();
    private final Map<String, View> views = new LinkedHashMap<>();

    private ViewCatalogue() {
        for (String[] row : rows("codes.tsv", 4)) {
            codes.put(row[0], new Code(row[2], row[1], row[3]));
        }
        for (String[] row : rows("teeth.tsv", 7)) {
            boolean upper = row[2].equals("maxilla");
            teeth.put(row[0], new Tooth(row[0], upper, row[3].equals("right"), new Code(row[5], row[4], row[6])));
        }
        for (String[] row : rows("views.tsv", 24)) {
            views.put(row[0], view(row));
        }
    }

    /** The catalogue that comes with the program. */
    public static ViewCatalogue standard() {
        return STANDARD;
    }

    /** All views, in the order of the catalogue: faces, smiles, teeth, arches, close-ups, casts, stages. */
    public Collection<View> views() {
        return Collections.unmodifiableCollection(views.values());
    }

    /** The view of that id, if there is one. */
    public Optional<View> view(String id) {
        return Optional.ofNullable(views.get(id));
    }

    /** The view ids that come closest to a word that is none, for a helpful sentence. */
    public List<String> similar(String word) {
        return views.keySet().stream()
                .sorted((a, b) -> Integer.compare(sharedLetters(b, word), sharedLetters(a, word)))
                .limit(3)
                .toList();
    }

    private static int sharedLetters(String id, String word) {
        return (int) Arrays.stream(id.split("-")).filter(word::contains).count() * 100
                - Math.abs(id.length() - word.length());
    }

    /** The tooth of that designation (two digits, ISO 3950), if there is one. */
    public Optional<Tooth> tooth(String designation) {
        return Optional.ofNullable(teeth.get(designation));
    }

    /** The tooth that a code means, if it means one. */
    public Optional<Tooth> tooth(Code code) {
        return teeth.values().stream()
                .filter(tooth -> tooth.code().sameConcept(code))
                .findFirst();
    }

    private View view(String[] row) {
        return new View(
                row[0],
                row[1],
                row[2],
                row[3],
                switch (row[4]) {
                    case "direct" -> View.Mirror.NEVER;
                    case "mirror" -> View.Mirror.ALWAYS;
                    case "either" -> View.Mirror.EITHER;
                    default -> throw new IllegalStateException("capture " + row[4]);
                },
                switch (row[5]) {
                    case "fixed" -> View.Mode.FIXED;
                    case "inherit" -> View.Mode.INHERITED;
                    case "none" -> View.Mode.NONE;
                    default -> throw new IllegalStateException("orientation mode " + row[5]);
                },
                known(row[6]),
                words(row[7]),
                row[9].equals("YES"),
                new View.Recorded(known(row[10]), row[11]),
                new View.Recorded(known(row[12]), row[13]),
                coding(row, 14),
                coding(row, 18),
                words(row[22]),
                words(row[23]));
    }

    private View.Coding coding(String[] row, int first) {
        return new View.Coding(
                known(row[first]).map(this::code),
                known(row[first + 1]).map(this::code),
                known(row[first + 2]),
                words(row[first + 3]).stream().map(this::code).toList());
    }

    private Code code(String id) {
        Code code = codes.get(id);
        if (code == null) {
            throw new IllegalStateException("the catalogue has no code " + id);
        }
        return code;
    }

    private static Optional<String> known(String column) {
        return column.isEmpty() ? Optional.empty() : Optional.of(column);
    }

    private static List<String> words(String column) {
        return column.isEmpty() ? List.of() : List.of(column.split(" "));
    }

    private static List<String[]> rows(String table, int columns) {
        try (InputStream in = ViewCatalogue.class.getResourceAsStream(table)) {
            if (in == null) {
                throw new IllegalStateException("the table " + table + " is missing from this program");
            }
            List<String[]> rows = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> line.split("\t", -1))
                    .toList();
            if (rows.stream().anyMatch(row -> row.length != columns)) {
                throw new IllegalStateException(
                        "the table " + table + " has a row that is not of " + columns + " columns");
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
