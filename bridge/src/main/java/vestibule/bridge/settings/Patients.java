package vestibule.bridge.settings;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import vestibule.bridge.patient.NamePattern;
import vestibule.bridge.photo.CameraField;

/**
 * How a practice says who is on a photograph, and who can be asked: the section {@code [patients]}.
 *
 * @param names how patients stand in names of files and folders
 * @param cameraField the text of the camera that names the patient
 * @param cameraPattern how the patient stands in it
 * @param codeId what a code with nothing but a patient id looks like; without it such codes mean nothing
 * @param dayList the list of the day's patients
 * @param worklist who answers worklist queries, as a URL
 * @param askArchive whether the archive is asked who a patient is
 * @param oneChair whether worklist and day list are those of the one chair that the cameras serve
 */
public record Patients(
        List<NamePattern> names,
        Optional<CameraField> cameraField,
        NamePattern cameraPattern,
        Optional<Pattern> codeId,
        Optional<Path> dayList,
        Optional<String> worklist,
        boolean askArchive,
        boolean oneChair) {

    private static final NamePattern ID = NamePattern.parse("{id}").orElseThrow();

    /** A practice that said nothing. */
    public static final Patients UNSAID = new Patients(
            List.of(), Optional.empty(), ID, Optional.empty(), Optional.empty(), Optional.empty(), true, false);

    static final Set<String> KEYS = Set.of(
            "patients.names",
            "patients.camera-field",
            "patients.camera-pattern",
            "patients.code-id",
            "patients.day-list",
            "patients.worklist",
            "patients.ask-archive",
            "patients.one-chair");

    public Patients {
        names = List.copyOf(names);
    }

    static Patients of(SettingsReader reader) {
        String form = "a pattern with {id}, or with {family} and {birth}, as \"{id}_{birth}/**\"";
        return new Patients(
                reader.values("patients.names", NamePattern::parse, form),
                reader.value(
                        "patients.camera-field",
                        CameraField::parse,
                        "\"image-description\", \"artist\", \"copyright\", \"user-comment\" or \"owner\""),
                reader.value("patients.camera-pattern", NamePattern::parse, form)
                        .orElse(ID),
                reader.value("patients.code-id", Patients::pattern, "a regular expression, as 'PG-[0-9]{4}'"),
                reader.value("patients.day-list", Patients::path, "the path of a file"),
                reader.value("patients.worklist", Optional::of, "dicom://HOST:PORT/CALLED_AE"),
                reader.flag("patients.ask-archive", true),
                reader.flag("patients.one-chair", false));
    }

    private static Optional<Pattern> pattern(String text) {
        try {
            return text.isBlank() || text.length() > 100 ? Optional.empty() : Optional.of(Pattern.compile(text));
        } catch (PatternSyntaxException otherForm) {
            return Optional.empty();
        }
    }

    private static Optional<Path> path(String text) {
        try {
            return text.isBlank() ? Optional.empty() : Optional.of(Path.of(text));
        } catch (InvalidPathException noPath) {
            return Optional.empty();
        }
    }
}
