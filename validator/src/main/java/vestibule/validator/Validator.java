package vestibule.validator;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.validator.iod.ObjectTable;
import vestibule.validator.rules.AllChecks;
import vestibule.validator.rules.ContentHash;

/**
 * Judges objects against the standard. {@code Validator.standard().validate(dataSet, transferSyntax)} is what an object is asked before it
 * is written; {@link #validate(Collection, ObjectReader)} judges what lies in folders; {@link #batch} what comes from elsewhere. Immutable,
 * for any number of threads.
 */
public final class Validator {

    private final Settings settings;
    private final Clock clock;
    private final StreamDepth depth;
    private final boolean thumbnails;
    private final List<Check> checks;

    private Validator(Settings settings, Clock clock, StreamDepth depth, boolean thumbnails) {
        this.settings = settings;
        this.clock = clock;
        this.depth = depth;
        this.thumbnails = thumbnails;
        this.checks = AllChecks.checks();
    }

    /** What DICOM demands. */
    public static Validator standard() {
        return under(Profile.STANDARD);
    }

    /** Under a profile. */
    public static Validator under(Profile profile) {
        return under(Settings.of(profile));
    }

    /** Under the settings of a practice. */
    public static Validator under(Settings settings) {
        return new Validator(settings, Clock.system(ZoneId.systemDefault()), StreamDepth.MARKERS, false);
    }

    /** Does what the first object would have to wait for, and nothing where it is done: reads the tables of the standard, finds the digest. */
    public static void prepare() {
        Dictionary.standard();
        ObjectTable.photographs();
        ContentHash.of("");
    }

    /** The same by another clock, which says what lies in the future and which waivers have expired. */
    public Validator by(Clock other) {
        return new Validator(settings, other, depth, thumbnails);
    }

    /** The same, reading streams that far. */
    public Validator reading(StreamDepth other) {
        return new Validator(settings, clock, other, thumbnails);
    }

    /** The same, with a small picture of each photograph in its report. */
    public Validator withThumbnails() {
        return new Validator(settings, clock, depth, true);
    }

    /** Every rule there is, by id. */
    public static List<Rule> rules() {
        return AllChecks.rules();
    }

    /** The edition of the standard whose tables are used, as {@code DICOM 2024c (PS3.3)}. */
    public String edition() {
        return ObjectTable.photographs().edition();
    }

    /** What it goes by. */
    public Settings settings() {
        return settings;
    }

    /** How far it reads streams. */
    public StreamDepth depth() {
        return depth;
    }

    /** The day by its clock. */
    public LocalDate today() {
        return LocalDate.now(clock);
    }

    /**
     * Judges a file that was read.
     *
     * @throws IOException if the file cannot be read any more
     */
    public ObjectReport validate(DicomFile file) throws IOException {
        return judge(Named.of(file.path()), subject(file));
    }

    /**
     * Judges a data set before it is written.
     *
     * @throws IOException if bytes that it refers to cannot be read any more
     */
    public ObjectReport validate(DataSet dataSet, TransferSyntax transferSyntax) throws IOException {
        return judge(Named.only(ObjectReport.UNWRITTEN), Subject.of(dataSet, transferSyntax, clock.instant(), depth));
    }

    /** Reads and judges a file; one that cannot be read gets the verdict {@code unreadable} and a sentence. */
    public ObjectReport validate(Path path) {
        try {
            return judge(Named.of(path), subject(DicomFile.read(path)));
        } catch (IOException e) {
            return ObjectReport.unreadable(Named.of(path), Batch.reason(path, e));
        }
    }

    /**
     * Judges every file below some paths, in the order of the paths and by name within each folder and ZIP file, holding few objects at a
     * time; each is compared with those before it.
     *
     * @return what is to be said of all together
     * @throws IOException if the reader cannot take a report
     */
    public BatchReport validate(Collection<Path> paths, ObjectReader reader) throws IOException {
        try (Batch batch = batch(reader)) {
            FileTree tree = new FileTree(batch);
            for (Path path : paths) {
                tree.walk(path);
            }
            return batch.end();
        }
    }

    /** Judges every file below some paths and keeps all reports. */
    public Report validate(Collection<Path> paths) throws IOException {
        List<ObjectReport> objects = new ArrayList<>();
        BatchReport whole = validate(paths, objects::add);
        return new Report(edition(), settings.profile().name(), objects, whole);
    }

    /** A batch whose objects are handed over one by one; to be closed. */
    public Batch batch(ObjectReader reader) {
        return new Batch(this, reader);
    }

    Subject subject(DicomFile file) {
        return Subject.of(file, clock.instant(), depth);
    }

    Findings find(Subject subject) throws IOException {
        Findings findings = new Findings(settings, Findings.KEPT);
        for (Check check : checks) {
            check.run(subject, findings);
        }
        return findings;
    }

    Optional<String> thumbnail(Subject subject) throws IOException {
        return thumbnails ? Thumbnail.of(subject) : Optional.empty();
    }

    private ObjectReport judge(Named named, Subject subject) throws IOException {
        return ObjectReport.of(named, find(subject), settings, today()).showing(thumbnail(subject));
    }
}
