package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.cli.Options;
import vestibule.bridge.object.PhotographicObject;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.photo.PictureMaker;
import vestibule.bridge.photo.Scratch;
import vestibule.bridge.settings.Cameras;
import vestibule.bridge.settings.Pictures;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.CameraNote;
import vestibule.bridge.view.CameraOrRoom;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.Correction;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.Stage;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.VR;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.jpeg.Recoding;

/** One photograph becomes one checked DICOM file. */
final class WrapCommand implements Command {

    private final Clock clock;
    private final Path scratchParent;

    /**
     * @param clock for what lies in the future
     * @param scratchParent where pictures in the making may lie for a moment
     */
    WrapCommand(Clock clock, Path scratchParent) {
        this.clock = clock;
        this.scratchParent = scratchParent;
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
                Given.value("capture", "HOW", Capture.ALL_WORDS),
                Given.value(
                        "correct-by",
                        "HOW",
                        "what puts the picture right where the usual set-ups do not fit: " + Correction.WORDS),
                Given.value("raw-out", "FILE", "where the picture as recorded goes, if it had to be turned or flipped"),
                Given.value(
                        "edge",
                        "trim|keep",
                        "where a lossless turn would bring a partial block to the wrong edge: trim leaves it off, keep refuses; else trim exactly if --raw-out is given"),
                Given.value(
                        "derived-from",
                        "OBJECT",
                        "for a copy that was greyed or annotated: the object it was made from"),
                Given.value("derivation", "WORDS", "what was done to the copy"),
                Given.value("like", "VIEW", "for a close-up or a stage: the view whose direction it shares"),
                Given.value("stage", "WORDS", "the stage of treatment, as before or after"),
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
                    "expected one photograph, found %s; see --help."
                            .formatted(Counted.of(arguments.words().size(), "word")));
        }
        Path file = Arguments.path("PHOTO", arguments.words().get(0));
        Path out = Arguments.path("--out", arguments.required("out"));
        Optional<Path> rawOut = arguments.path("raw-out");
        Settings settings = SettingsFile.of(arguments);
        Pictures pictures = pictures(arguments, settings);
        Patient patient = patient(arguments);
        Optional<CopySource> source = CopySource.of(arguments, patient);
        Visit own = visit(arguments);
        Visit visit = source.map(one -> one.visit(own)).orElse(own);
        Placement placement = placement(arguments, settings, file);
        checkTargets(out, rawOut);
        Optional<String> copied =
                source.isPresent() ? check(source.get(), placement, arguments, settings, file) : Optional.empty();
        try (Scratch scratch = Scratch.in(scratchParent)) {
            Wrapping wrapping = new Wrapping(new PictureMaker(scratch), clock, settings.practice(), pictures);
            Wrapping.Decisions decisions = new Wrapping.Decisions(
                    patient, placement, visit, source.map(CopySource::standing), clock(file, settings.cameras()));
            Wrapping.Wrapped wrapped =
                    wrapping.wrap(file, decisions, rawOut.isPresent() ? Wrapping.Raw.ALWAYS : Wrapping.Raw.NEVER);
            List<String> notes = new ArrayList<>(wrapped.notes());
            copied.ifPresent(notes::add);
            notes.addAll(wrapping.look(file, decisions));
            write(file, wrapped, out, rawOut, terminal);
            notes.forEach(note -> terminal.err().println("vestibule wrap: %s: %s.".formatted(file, note)));
        }
        return Exit.FINE;
    }

    /** Before anything is made of a copy; what a person should look at. */
    private static Optional<String> check(
            CopySource source, Placement placement, Arguments arguments, Settings settings, Path file)
            throws Failure, IOException {
        source.checkSaid(placement, view(arguments, "like", rules(settings).views()));
        return source.checkPicture(file);
    }

    /** What has to be added to the camera's clock, as the service does it. */
    private static Duration clock(Path file, Cameras cameras) throws IOException {
        if (cameras.clocks().isEmpty() || !Files.isRegularFile(file)) {
            return Duration.ZERO;
        }
        try {
            // Only the headers are wanted here; the hash is worked out where the object is made.
            return cameras.clock(FrameReader.names(Photo.kept(file, "")));
        } catch (PhotoException e) {
            // The same is found again where the object is made, and said there.
            return Duration.ZERO;
        }
    }

    /** Both objects are checked before one is written, and there are both or none. */
    private static void write(Path file, Wrapping.Wrapped wrapped, Path out, Optional<Path> rawOut, Terminal terminal)
            throws Failure, IOException {
        Gate.check(file, wrapped.object());
        Optional<PhotographicObject> raw = wrapped.raw();
        if (raw.isPresent()) {
            Gate.check(file, raw.get());
            DicomFile.write(rawOut.orElseThrow(), raw.get().dataSet(), raw.get().transferSyntax());
        }
        try {
            DicomFile.write(out, wrapped.object().dataSet(), wrapped.object().transferSyntax());
        } catch (IOException e) {
            if (raw.isPresent()) {
                Files.deleteIfExists(rawOut.orElseThrow());
            }
            throw e;
        }
        terminal.out().println(out);
        if (raw.isPresent()) {
            terminal.out().println(rawOut.orElseThrow());
        }
    }

    private static Pictures pictures(Arguments arguments, Settings settings) throws Failure {
        Optional<Recoding.Edge> edge = arguments.formed("edge", Pictures::edge, "trim or keep");
        Pictures pictures = settings.practice().pictures();
        return edge.map(pictures::withEdge).orElse(pictures);
    }

    private static void checkTargets(Path out, Optional<Path> rawOut) throws Failure {
        checkTarget("--out", out);
        if (rawOut.isPresent()) {
            checkTarget("--raw-out", rawOut.get());
            if (rawOut.get()
                    .toAbsolutePath()
                    .normalize()
                    .equals(out.toAbsolutePath().normalize())) {
                throw new Failure(Exit.USAGE, "--raw-out names the same file as --out; name another.");
            }
        }
    }

    /** A file that a command may make: its folder is there, and nothing is in its place. */
    static void checkTarget(String option, Path out) throws Failure {
        Path folder = out.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new Failure(
                    Exit.INPUT_OUTPUT, "%s %s: its folder is not there; make it first.".formatted(option, out));
        }
        if (Files.exists(out)) {
            throw new Failure(
                    Exit.INPUT_OUTPUT,
                    "%s %s: is there already and is not written over; name another.".formatted(option, out));
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
                Optional.empty(),
                Optional.empty(),
                arguments.formed("stage", Stage::parse, "up to 40 letters, digits, commas and blanks"),
                Optional.empty(),
                arguments.number("instance-number", 0, 999_999_999));
    }

    private static ViewRules rules(Settings settings) {
        return ViewRules.of(
                settings.views(), settings.sets(), settings.practice().coding(), Optional.empty());
    }

    private static Placement placement(Arguments arguments, Settings settings, Path file) throws Failure, IOException {
        arguments.required("view");
        ViewRules rules = rules(settings);
        View view = view(arguments, "view", rules.views()).orElseThrow();
        Optional<Capture> capture = arguments.formed("capture", Capture::parse, Capture.ALL_WORDS);
        Optional<Correction> correction = arguments.formed("correct-by", Correction::parse, Correction.WORDS);
        Optional<View> like = view(arguments, "like", rules.views());
        List<Tooth> teeth = teeth(arguments, rules.views());
        Photo photo = photo(file);
        try {
            Placement placement = rules.place(view, capture, correction, like, teeth, cameras(file, photo));
            if (correction.isEmpty()) {
                checkNote(photo, placement, capture.isPresent());
            }
            return placement;
        } catch (ContradictionException e) {
            throw new Failure(Exit.FINDINGS, String.valueOf(e.getMessage()));
        }
    }

    /** As the service asks where nobody who looked said the capture, or the flip of a rolled camera. */
    private static void checkNote(Photo photo, Placement placement, boolean captureSaid) throws Failure {
        Optional<String> question = captureSaid
                ? CameraNote.questionOfRoll(photo.upright(), placement)
                : photo.camera()
                        .doubt()
                        .map(doubt -> CameraNote.unread(doubt, placement))
                        .or(() -> CameraNote.question(photo.upright(), placement));
        if (question.isPresent()) {
            throw new Failure(Exit.FINDINGS, question.get());
        }
    }

    private static Photo photo(Path file) throws Failure, IOException {
        try {
            return Photo.read(file);
        } catch (PhotoException e) {
            throw new Failure(Exit.BAD_DATA, "%s: %s.".formatted(file, e.getMessage()));
        }
    }

    /** What its camera and the folders it lies in are called, by its real path, as the service calls them. */
    private static List<String> cameras(Path file, Photo photo) throws IOException {
        Path folder = Optional.ofNullable(file.toAbsolutePath().getParent()).orElseThrow();
        return CameraOrRoom.names(
                FrameReader.names(photo),
                folder.toRealPath().resolve(file.getFileName()).toString());
    }

    private static Optional<View> view(Arguments arguments, String option, ViewCatalogue catalogue) throws Failure {
        Optional<String> id = arguments.text(option);
        if (id.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(catalogue
                .view(id.get())
                .orElseThrow(() -> new Failure(
                        Exit.USAGE,
                        "--%s: there is no view %s; close to it are %s, and vestibule views lists all."
                                .formatted(option, id.get(), String.join(", ", catalogue.similar(id.get()))))));
    }

    private static List<Tooth> teeth(Arguments arguments, ViewCatalogue catalogue) throws Failure {
        List<Tooth> teeth = new ArrayList<>();
        for (String designation :
                arguments.text("teeth").map(text -> text.split(",")).orElse(new String[0])) {
            Tooth tooth = catalogue
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
}
