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
 * @param protocol Protocol Name (0018,1030): the set of views that was followed
 * @param sitting what the sitting is known by; each gets a series of its own
 * @param stage the stage of treatment the photograph belongs to
 * @param order what the practice system ordered
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
        Optional<String> protocol,
        Optional<String> sitting,
        Optional<String> stage,
        Optional<Order> order,
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
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());

    /** The same in that study. */
    public Visit inStudy(Uid uid, Optional<LocalDate> date, Optional<LocalTime> time) {
        return new Visit(
                Optional.of(uid),
                accession,
                studyId,
                date,
                time,
                studyDescription,
                referring,
                operator,
                series,
                seriesNumber,
                seriesDescription,
                protocol,
                sitting,
                stage,
                order,
                instanceNumber);
    }

    /** The same with the study called so. */
    public Visit described(
            Optional<String> id, Optional<String> number, Optional<String> words, Optional<PersonName> physician) {
        return new Visit(
                study,
                number,
                id,
                studyDate,
                studyTime,
                words,
                physician,
                operator,
                series,
                seriesNumber,
                seriesDescription,
                protocol,
                sitting,
                stage,
                order,
                instanceNumber);
    }

    /** The same on that order. */
    public Visit ordered(Optional<Order> other) {
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
                protocol,
                sitting,
                stage,
                other,
                instanceNumber);
    }

    /** The same in a series that is made of these; its UID follows from them and the camera. */
    public Visit inSeries(Optional<String> description, Optional<String> followed, Optional<String> takenTogether) {
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
                description,
                followed,
                takenTogether,
                stage,
                order,
                instanceNumber);
    }

    /** The same for one photograph of it. */
    public Visit photographed(Optional<String> at, Optional<Integer> number) {
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
                protocol,
                sitting,
                at,
                order,
                number);
    }

    /** The same for an object beside the numbered one, which nobody gave a number. */
    public Visit unnumbered() {
        return photographed(stage, Optional.empty());
    }
}
