package vestibule.validator;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;
import vestibule.validator.iod.ObjectTable;
import vestibule.validator.rules.AllChecks;
import vestibule.validator.rules.BatchCheck;

/**
 * Judges objects against the standard. {@code Validator.standard().validate(dataSet, transferSyntax)} is what an object is asked before it
 * is written; {@link #validate(Collection, ObjectReader)} judges what lies in folders. Immutable, for any number of threads.
 */
public final class Validator {

    private final Profile profile;
    private final List<Check> checks;

    private Validator(Profile profile) {
        this.profile = profile;
        this.checks = AllChecks.checks();
    }

    /** What DICOM demands. */
    public static Validator standard() {
        return new Validator(Profile.STANDARD);
    }

    /** Under a profile. */
    public static Validator under(Profile profile) {
        return new Validator(profile);
    }

    /** Every rule there is, by id. */
    public static List<Rule> rules() {
        return AllChecks.rules();
    }

    /** The edition of the standard whose tables are used, as {@code DICOM 2024c (PS3.3)}. */
    public String edition() {
        return ObjectTable.photographs().edition();
    }

    /** The profile. */
    public Profile profile() {
        return profile;
    }

    /**
     * Judges a file that was read.
     *
     * @throws IOException if the file cannot be read any more
     */
    public ObjectReport validate(DicomFile file) throws IOException {
        return judge(Optional.of(file.path()), Subject.of(file), List.of());
    }

    /**
     * Judges a data set before it is written.
     *
     * @throws IOException if bytes that it refers to cannot be read any more
     */
    public ObjectReport validate(DataSet dataSet, TransferSyntax transferSyntax) throws IOException {
        return judge(Optional.empty(), Subject.of(dataSet, transferSyntax), List.of());
    }

    /** Reads and judges a file; one that cannot be read gets the verdict {@code unreadable} and a sentence. */
    public ObjectReport validate(Path path) {
        return validate(path, List.of());
    }

    private ObjectReport validate(Path path, List<Check> comparing) {
        try {
            DicomFile file = DicomFile.read(path);
            return judge(Optional.of(path), Subject.of(file), comparing);
        } catch (DicomFormatException e) {
            return ObjectReport.unreadable(path, "not a readable DICOM object: " + sentence(e));
        } catch (AccessDeniedException e) {
            return ObjectReport.unreadable(path, "the file cannot be opened; check who may read it");
        } catch (IOException e) {
            return ObjectReport.unreadable(path, "the file cannot be read to its end: " + sentence(e));
        }
    }

    private static String sentence(IOException e) {
        String message = e.getMessage();
        return message == null ? e.getClass().getSimpleName() : message;
    }

    /**
     * Judges every file below some paths, in the order of the paths and by name within each folder, holding one object at a time; each
     * is compared with those before it.
     *
     * @return how many objects got which verdict
     * @throws IOException if the reader cannot take a report
     */
    public Summary validate(Collection<Path> paths, ObjectReader reader) throws IOException {
        Tally tally = new Tally(reader);
        FileTree tree = new FileTree(tally);
        for (Path path : paths) {
            tree.walk(path);
        }
        return tally.summary;
    }

    /** Judges every file below some paths and keeps all reports. */
    public Report validate(Collection<Path> paths) throws IOException {
        List<ObjectReport> objects = new ArrayList<>();
        validate(paths, objects::add);
        return new Report(edition(), profile.name(), objects);
    }

    private ObjectReport judge(Optional<Path> path, Subject subject, List<Check> comparing) throws IOException {
        Findings findings = new Findings(profile);
        for (Check check : checks) {
            check.run(subject, findings);
        }
        for (Check check : comparing) {
            check.run(subject, findings);
        }
        return ObjectReport.of(path, findings);
    }

    private final class Tally implements FileTree.Visitor {
        private final ObjectReader reader;
        private final List<Check> comparing = List.of(new BatchCheck());
        private Summary summary = Summary.NONE;

        Tally(ObjectReader reader) {
            this.reader = reader;
        }

        @Override
        public void file(Path file) throws IOException {
            take(validate(file, comparing));
        }

        @Override
        public void unreadable(Path path, String reason) throws IOException {
            take(ObjectReport.unreadable(path, reason));
        }

        private void take(ObjectReport report) throws IOException {
            summary = summary.with(report.verdict());
            reader.accept(report);
        }
    }
}
