package vestibule.bridge.object;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;

/**
 * The study and series a photograph belongs to, as far as somebody said so (PS3.3 C.7.2.1, C.7.3.1).
 *
 * @param study Study Instance UID (0020,000D); without it photographs of one patient and day share one
 * @param accession Accession Number (0008,0050)
 * @param studyId Study ID (0020,0010)
 * @param studyDate Study Date (0008,0020); without it the day of the photograph
 * @param studyTime Study Time (0008,0030)
 * @param studyDescription Study Description (0008,1030)
 * @param referring Referring Physician's Name (0008,0090)
 * @param operator Operators' Name (0008,1070), who took the picture
 * @param series Series Instance UID (0020,000E); without it photographs of one study and camera share one
 * @param seriesNumber Series Number (0020,0011)
 * @param seriesDescription Series Description (0008,103E)
 * @param instanceNumber Instance Number (0020,0013)
 */
public record Visit(
        Optional<Uid> study,
        Optional<String> accession,
        Optional<String> studyId,
        Optional<LocalDate> studyDate,
        Optional<LocalTime> studyTime,
        Optional<String> studyDescription,
        Optional<PersonName> referring,
        Optional<PersonName> operator,
        Optional<Uid> series,
        Optional<Integer> seriesNumber,
        Optional<String> seriesDescription,
        Optional<Integer> instanceNumber) {

    /** A visit of which nobody said anything. */
    public static final Visit UNSAID = new Visit(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());

    /** The same for an object beside the numbered one, which nobody gave a number. */
    public Visit unnumbered() {
        return new Visit(
                study,
                accession,
                studyId,
                studyDate,
                studyTime,
                studyDescription,
                referring,
                operator,
                series,
                seriesNumber,
                seriesDescription,
                Optional.empty());
    }
}
