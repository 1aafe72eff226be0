package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.Standing;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.view.Placement;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;

/**
 * The object that a copy was made from: the copy names it, and lies in the same study (PS3.3 C.12.4, A.1.2).
 *
 * @param path where it is
 * @param object the object
 * @param standing what the copy says of it
 */
record CopySource(Path path, DataSet object, Standing standing) {

    static Optional<CopySource> of(Arguments arguments, Patient patient) throws Failure, IOException {
        Optional<Path> path = arguments.path("derived-from");
        if (path.isEmpty()) {
            if (arguments.has("derivation")) {
                throw new Failure(
                        Exit.USAGE, "--derivation says what was done to a copy, and --derived-from is missing.");
            }
            return Optional.empty();
        }
        String words = arguments.required("derivation", VR.ST).strip();
        DicomFile file = DicomFile.read(path.get());
        Uid sopClass = file.sopClass().orElseThrow(() -> unnamed(path.get()));
        Uid instance = file.sopInstance().orElseThrow(() -> unnamed(path.get()));
        DataSet object = file.dataSet();
        boolean samePatient = object.text(Attributes.PATIENT_ID).equals(Optional.of(patient.id()));
        Optional<String> issuer = object.text(Attributes.ISSUER_OF_PATIENT_ID);
        boolean sameIssuer = patient.issuer().isEmpty() || issuer.isEmpty() || issuer.equals(patient.issuer());
        if (!samePatient || !sameIssuer) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: is of another patient than the copy is said to be; one of the two is wrong."
                            .formatted(path.get()));
        }
        String sentence = words.endsWith(".") ? words : words + ".";
        return Optional.of(new CopySource(path.get(), object, new Standing.Copy(sopClass, instance, sentence)));
    }

    private static DicomFormatException unnamed(Path path) {
        return new DicomFormatException(path + " has no SOP Class UID or no SOP Instance UID, so no copy can name it");
    }

    /** A copy faces the way its source does: one made from an uncorrected mirror picture would show the wrong side. */
    void checkFacing(Placement placement) throws Failure {
        List<String> orientation = object.texts(Attributes.PATIENT_ORIENTATION);
        boolean uncorrected = object.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION)
                .filter(text -> text.contains("picture=uncorrected"))
                .isPresent();
        boolean other = orientation.size() == 2
                && placement.orientation().isPresent()
                && !String.join("\\", orientation)
                        .equals(placement.orientation().get());
        if (uncorrected || other) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: %s, so a copy of it is not filed under the view %s; make the copy from the finished picture of that view."
                            .formatted(
                                    path,
                                    uncorrected
                                            ? "is the uncorrected picture of a mirror capture"
                                            : "does not face the way of the view",
                                    placement.view().id()));
        }
    }

    /** The visit of the copy: what was said of it, else what stands in the object. */
    Visit visit(Visit said) {
        return new Visit(
                said.study().or(() -> object.text(Attributes.STUDY_INSTANCE_UID).flatMap(Uid::parse)),
                said.accession().or(() -> object.text(Attributes.ACCESSION_NUMBER)),
                said.studyId().or(() -> object.text(Attributes.STUDY_ID)),
                said.studyDate().or(this::day),
                said.studyTime().or(this::time),
                said.studyDescription().or(() -> object.text(Attributes.STUDY_DESCRIPTION)),
                said.referring()
                        .or(() ->
                                object.text(Attributes.REFERRING_PHYSICIAN_NAME).flatMap(PersonName::parse)),
                said.operator(),
                said.series(),
                said.seriesNumber(),
                said.seriesDescription(),
                said.protocol(),
                said.sitting(),
                said.stage(),
                said.order(),
                said.instanceNumber());
    }

    private Optional<LocalDate> day() {
        return object.text(Attributes.STUDY_DATE).flatMap(text -> {
            try {
                return Optional.of(LocalDate.parse(text, DateTimeFormatter.BASIC_ISO_DATE));
            } catch (DateTimeParseException unreadable) {
                return Optional.empty();
            }
        });
    }

    private Optional<LocalTime> time() {
        return object.text(Attributes.STUDY_TIME).flatMap(text -> {
            try {
                return Optional.of(LocalTime.parse(text, DateTimeFormatter.ofPattern("HHmmss")));
            } catch (DateTimeParseException unreadable) {
                return Optional.empty();
            }
        });
    }
}
