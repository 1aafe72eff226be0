package vestibule.bridge.settings;

import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.VR;

/**
 * The section {@code [study]}: how visits become studies and sittings become series (trade facts D-15).
 *
 * @param join what becomes of a visit for which no order stands in the worklist
 * @param series what becomes a series
 * @param description Study Description (0008,1030) of the studies we begin
 * @param seriesDescription Series Description (0008,103E); else "Clinical photographs"
 * @param rejection how an object that was filed wrongly is taken back
 */
public record Study(
        Join join,
        Series series,
        Optional<String> description,
        Optional<String> seriesDescription,
        Rejection rejection) {

    static final Set<String> KEYS =
            Set.of("study.join", "study.series", "study.description", "study.series-description", "study.rejection");

    /** A practice that said nothing. */
    public static final Study USUAL =
            new Study(Join.NEW, Series.SITTING, Optional.empty(), Optional.empty(), Rejection.NOTE);

    /** Which study photographs without an order go into. */
    public enum Join {
        /** One of their own for each visit. */
        NEW,
        /** The study of the same patient and day that the archive has already, as that of the radiographs. */
        VISIT
    }

    /** What becomes a series. */
    public enum Series {
        /** Each sitting, and each camera in it, since a series has one equipment (PS3.3 A.1.2.5). */
        SITTING,
        /** All photographs of one camera in a study. */
        CAMERA
    }

    /** How an object that was filed wrongly is taken back. */
    public enum Rejection {
        /** By a rejection note, a key object that the archive hides the object by. */
        NOTE,
        /** By a person, who reads what to do. */
        PERSON
    }

    /** The same where a visit without an order gets a study of its own. */
    public Study apart() {
        return new Study(Join.NEW, series, description, seriesDescription, rejection);
    }

    static Study of(SettingsReader reader) {
        return new Study(
                reader.value("study.join", Study::join, "\"new\" or \"visit\"").orElse(Join.NEW),
                reader.value("study.series", Study::series, "\"sitting\" or \"camera\"")
                        .orElse(Series.SITTING),
                reader.text("study.description", VR.LO),
                reader.text("study.series-description", VR.LO),
                reader.value("study.rejection", Study::rejection, "\"note\" or \"person\"")
                        .orElse(Rejection.NOTE));
    }

    private static Optional<Join> join(String word) {
        return switch (word) {
            case "new" -> Optional.of(Join.NEW);
            case "visit" -> Optional.of(Join.VISIT);
            default -> Optional.empty();
        };
    }

    private static Optional<Series> series(String word) {
        return switch (word) {
            case "sitting" -> Optional.of(Series.SITTING);
            case "camera" -> Optional.of(Series.CAMERA);
            default -> Optional.empty();
        };
    }

    private static Optional<Rejection> rejection(String word) {
        return switch (word) {
            case "note" -> Optional.of(Rejection.NOTE);
            case "person" -> Optional.of(Rejection.PERSON);
            default -> Optional.empty();
        };
    }
}
