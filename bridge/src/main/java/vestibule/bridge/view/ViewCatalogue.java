package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.Code;
import vestibule.dicom.jpeg.Turn;

/** The views a photograph may show, the codes they use and the teeth, read from the committed tables. */
public final class ViewCatalogue {

    private static final ViewCatalogue STANDARD = new ViewCatalogue();

    private final Map<String, Code> codes = new LinkedHashMap<>();
    private final Map<String, Tooth> teeth = new LinkedHashMap<>();
    private final Map<String, View> views = new LinkedHashMap<>();

    private ViewCatalogue() {
        for (String[] row : Tables.rows("codes.tsv", 4)) {
            codes.put(row[0], new Code(row[2], row[1], row[3]));
        }
        for (String[] row : Tables.rows("teeth.tsv", 8)) {
            boolean upper = row[2].equals("maxilla");
            teeth.put(
                    row[0], new Tooth(row[0], row[7], upper, row[3].equals("right"), new Code(row[5], row[4], row[6])));
        }
        for (String[] row : Tables.rows("views.tsv", 25)) {
            views.put(row[0], view(row));
        }
        List<String> problems = CatalogueCheck.problems(views.values());
        if (!problems.isEmpty()) {
            throw new IllegalStateException("the catalogue of this program is wrong: " + String.join("; ", problems));
        }
    }

    private ViewCatalogue(ViewCatalogue standard, Customs customs) {
        codes.putAll(standard.codes);
        teeth.putAll(standard.teeth);
        Map<String, String> labels = Labels.of(customs.language());
        for (View view : standard.views()) {
            View changed = view;
            for (Choice choice : Choice.values()) {
                changed = customs.choices().contains(choice) ? choice.applied(changed) : changed;
            }
            String label = labels.getOrDefault(view.id(), view.label());
            views.put(view.id(), changed.labelled(customs.labels().getOrDefault(view.id(), label)));
        }
    }

    /** The catalogue that comes with the program. */
    public static ViewCatalogue standard() {
        return STANDARD;
    }

    /** The catalogue as a practice with these customs has it. */
    public static ViewCatalogue of(Customs customs) {
        return customs.equals(Customs.USUAL) ? STANDARD : new ViewCatalogue(STANDARD, customs);
    }

    /** What is wrong with the catalogue, a sentence without a full stop each; only a practice's own labels can make it wrong. */
    public List<String> problems() {
        return CatalogueCheck.problems(views.values());
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
                Tables.known(row[6]),
                Tables.words(row[7]),
                Tables.known(row[10]),
                Tables.words(row[8]).stream()
                        .map(word -> Frame.parse(word).orElseThrow())
                        .toList(),
                Optional.of(row[9].equals("YES")),
                new View.Recorded(Tables.known(row[11]), turn(row[12])),
                new View.Recorded(Tables.known(row[13]), turn(row[14])),
                coding(row, 15),
                coding(row, 19),
                Tables.words(row[23]),
                Tables.words(row[24]));
    }

    private static Turn turn(String word) {
        return switch (word) {
            case "none", "" -> Turn.NONE;
            case "flip_h" -> Turn.FLIP_HORIZONTAL;
            case "flip_v" -> Turn.FLIP_VERTICAL;
            case "rot90cw" -> Turn.ROTATE_90;
            case "rot180" -> Turn.ROTATE_180;
            case "rot270cw" -> Turn.ROTATE_270;
            case "transpose" -> Turn.TRANSPOSE;
            case "transverse" -> Turn.TRANSVERSE;
            default -> throw new IllegalStateException("transform " + word);
        };
    }

    private View.Coding coding(String[] row, int first) {
        return new View.Coding(
                Tables.known(row[first]).map(this::code),
                Tables.known(row[first + 1]).map(this::code),
                Tables.known(row[first + 2]),
                Tables.words(row[first + 3]).stream().map(this::code).toList());
    }

    private Code code(String id) {
        Code code = codes.get(id);
        if (code == null) {
            throw new IllegalStateException("the catalogue has no code " + id);
        }
        return code;
    }
}
