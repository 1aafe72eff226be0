package vestibule.bridge.object;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;

/**
 * A study of the patient that the archive has already, from a match at STUDY level (PS3.4 C.6.2.1.2).
 *
 * @param patientId whose it is
 * @param issuer who gave that id, if the archive says so
 * @param study Study Instance UID (0020,000D)
 * @param date Study Date (0008,0020)
 * @param time Study Time (0008,0030)
 * @param studyId Study ID (0020,0010)
 * @param accession Accession Number (0008,0050)
 * @param description Study Description (0008,1030)
 * @param referring Referring Physician's Name (0008,0090)
 */
public record KnownStudy(
        String patientId,
        Optional<String> issuer,
        Uid study,
        Optional<LocalDate> date,
        Optional<LocalTime> time,
        Optional<String> studyId,
        Optional<String> accession,
        Optional<String> description,
        Optional<PersonName> referring) {

    /** The study of a match; empty if it names neither patient nor study. */
    public static Optional<KnownStudy> of(DataSet match) {
        Optional<String> patient = text(match.text(Attributes.PATIENT_ID));
        return patient.flatMap(id -> match.text(Attributes.STUDY_INSTANCE_UID)
                .flatMap(text -> Uid.parse(text.strip()))
                .map(study -> new KnownStudy(
                        id,
                        text(match.text(Attributes.ISSUER_OF_PATIENT_ID)),
                        study,
                        match.text(Attributes.STUDY_DATE).flatMap(Moments::day),
                        match.text(Attributes.STUDY_TIME).flatMap(Moments::time),
                        text(match.text(Attributes.STUDY_ID)),
                        text(match.text(Attributes.ACCESSION_NUMBER)),
                        text(match.text(Attributes.STUDY_DESCRIPTION)),
                        match.text(Attributes.REFERRING_PHYSICIAN_NAME)
                                .flatMap(PersonName::parse)
                                .filter(name -> !name.isEmpty()))));
    }

    /** The studies in a list of matches; what names no study is passed over. */
    public static List<KnownStudy> of(List<DataSet> matches) {
        return matches.stream().flatMap(match -> of(match).stream()).toList();
    }

    private static Optional<String> text(Optional<String> text) {
        return text.map(String::strip).filter(found -> !found.isEmpty());
    }
}
