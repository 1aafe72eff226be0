package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.cli.Options;
import vestibule.bridge.object.PhotographicObject;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.VR;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;

/** One photograph becomes one checked DICOM file. */
final class WrapCommand implements Command {

    private static final ViewCatalogue CATALOGUE = ViewCatalogue.standard();

    private final Clock clock;

    WrapCommand(Clock clock) {
        this.clock = clock;
    }

    @Override
    public String name() {
        return "wrap";
    }

    @Override
    public String syntax() {
        return "PHOTO --out FILE --view ID --patient-id ID --patient-name NAME [options]";
    }

    @Override
    public String summary() {
        return "one photograph becomes one checked DICOM file";
    }

    @Override
    public Options options() {
        return Given.all(
                Given.value("out", "FILE", "where the object goes; must not be there yet"),
                Given.value("view", "ID", "what the photograph shows; vestibule views lists them"),
                Given.value("patient-id", "ID", "Patient ID (0010,0020)"),
                Given.value("patient-name", "NAME", "FAMILY^GIVEN^MIDDLE^PREFIX^SUFFIX[=ideographic[=phonetic]]"),
                Given.value("issuer", "TEXT", "who gave the patient id (0010,0021)"),
                Given.value("birth-date", "YYYY-MM-DD", "Patient's Birth Date (0010,0030)"),
                Given.value("sex", "M/F/O", "Patient's Sex (0010,0040)"),
                Given.value("teeth", "11,21", "the teeth shown, two digits each (ISO 3950), confirmed by a person"),
                Given.value("capture", "HOW", "direct, mirror-front or mirror-behind"),
                Given.value("like", "VIEW", "for a close-up or a stage: the view whose direction it shares"),
                Given.value("accession", "TEXT", "Accession Number (0008,0050)"),
                Given.value("study-uid", "UID", "the study it belongs to; else one for each patient and day"),
                Given.value("study-id", "TEXT", "Study ID (0020,0010)"),
                Given.value("study-date", "YYYY-MM-DD", "Study Date (0008,0020); else the day of the photograph"),
                Given.value("study-time", "HH:MM", "Study Time (0008,0030)"),
                Given.value("study-description", "TEXT", "Study Description (0008,1030)"),
                Given.value("referring", "NAME", "Referring Physician's Name (0008,0090)"),
                Given.value("operator", "NAME", "who took the picture (0008,1070)"),
                Given.value("series-uid", "UID", "the series; else one for each study and camera"),
                Given.value("series-number", "N", "Series Number (0020,0011)"),
                Given.value("series-description", "TEXT", "Series Description (0008,103E)"),
                Given.value("instance-number", "N", "Instance Number (0020,0013)"),
                Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (arguments.words().size() != 1) {
            throw new Failure(
                    Exit.USAGE,
                    "expected one photograph, found %d words; see --help."
                            .formatted(arguments.words().size()));
        }
        Path file = Arguments.path("PHOTO", arguments.words().get(0));
        Path out = Arguments.path("--out", arguments.required("out"));
        Settings settings = SettingsFile.of(arguments);
        Patient patient = patient(arguments);
        Visit visit = visit(arguments);
        Placement placement = placement(arguments, settings);
        checkTarget(out);
        PhotographicObject object = object(file, patient, placement, visit, settings);
        Gate.check(file, object);
        DicomFile.write(out, object.dataSet(), object.transferSyntax());
        terminal.out().println(out);
        return Exit.FINE;
    }

    private static void checkTarget(Path out) throws Failure {
        Path folder = out.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new Failure(Exit.INPUT_OUTPUT, "--out %s: its folder is not there; make it first.".formatted(out));
        }
        if (Files.exists(out)) {
            throw new Failure(
                    Exit.INPUT_OUTPUT,
                    "--out %s: is there already and is not written over; name another.".formatted(out));
        }
    }

    private static Patient patient(Arguments arguments) throws Failure {
        arguments.required("patient-name");
        return new Patient(
                arguments.required("patient-id", VR.LO).strip(),
                arguments.text("issuer", VR.LO),
                arguments.name("patient-name").orElseThrow(),
                arguments.date("birth-date"),
                arguments.formed(
                        "sex", text -> text.matches("[MFO]") ? Optional.of(text) : Optional.empty(), "M, F or O"));
    }

    private static Visit visit(Arguments arguments) throws Failure {
        return new Visit(
                arguments.uid("study-uid"),
                arguments.text("accession", VR.SH),
                arguments.text("study-id", VR.SH),
                arguments.date("study-date"),
                arguments.time("study-time"),
                arguments.text("study-description", VR.LO),
                arguments.name("referring"),
                arguments.name("operator"),
                arguments.uid("series-uid"),
                arguments.number("series-number", 0, 999_999_999),
                arguments.text("series-description", VR.LO),
                arguments.number("instance-number", 0, 999_999_999));
    }

    private static Placement placement(Arguments arguments, Settings settings) throws Failure {
        arguments.required("view");
        View view = view(arguments, "view").orElseThrow();
        Optional<Capture> capture =
                arguments.formed("capture", Capture::parse, "direct, mirror-front or mirror-behind");
        try {
            return Placement.of(
                    view,
                    capture,
                    view(arguments, "like"),
                    teeth(arguments),
                    settings.practice().coding());
        } catch (ContradictionException e) {
            throw new Failure(Exit.FINDINGS, String.valueOf(e.getMessage()));
        }
    }

    private static Optional<View> view(Arguments arguments, String option) throws Failure {
        Optional<String> id = arguments.text(option);
        if (id.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(CATALOGUE
                .view(id.get())
                .orElseThrow(() -> new Failure(
                        Exit.USAGE,
                        "--%s: there is no view %s; close to it are %s, and vestibule views lists all."
                                .formatted(option, id.get(), String.join(", ", CATALOGUE.similar(id.get()))))));
    }

    private static List<Tooth> teeth(Arguments arguments) throws Failure {
        List<Tooth> teeth = new ArrayList<>();
        for (String designation :
                arguments.text("teeth").map(text -> text.split(",")).orElse(new String[0])) {
            Tooth tooth = CATALOGUE
                    .tooth(designation.strip())
                    .orElseThrow(() -> new Failure(
                            Exit.USAGE,
                            "--teeth: %s is no tooth; expected two digits, quadrant 1 to 8 and place from the midline (ISO 3950)."
                                    .formatted(designation)));
            if (!teeth.contains(tooth)) {
                teeth.add(tooth);
            }
        }
        return teeth;
    }

    private PhotographicObject object(Path file, Patient patient, Placement placement, Visit visit, Settings settings)
            throws Failure, IOException {
        try {
            Photo photo = Photo.read(file);
            checkDates(file, photo, patient);
            return PhotographicObject.of(
                    new PhotographicObject.Material(photo, patient, placement, visit, settings.practice()));
        } catch (PhotoException | DicomFormatException e) {
            throw new Failure(Exit.BAD_DATA, "%s: %s.".formatted(file, e.getMessage()));
        }
    }

    /** A photograph older than its patient, or from the future, says that the patient or the clock is wrong. */
    private void checkDates(Path file, Photo photo, Patient patient) throws Failure {
        Optional<LocalDate> taken =
                photo.camera().captured().map(time -> time.local().toLocalDate());
        if (taken.isPresent()
                && patient.birthDate().isPresent()
                && taken.get().isBefore(patient.birthDate().get())) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: the camera says %s, before the patient was born; the patient or the camera clock is wrong."
                            .formatted(file, taken.get()));
        }
        LocalDate tomorrow = LocalDate.now(clock).plusDays(1);
        if (taken.isPresent() && taken.get().isAfter(tomorrow)) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: the camera says %s, which is still to come; its clock is wrong.".formatted(file, taken.get()));
        }
    }
}
