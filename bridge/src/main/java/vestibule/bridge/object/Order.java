package vestibule.bridge.object;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;

/**
 * What the practice system ordered, from an item of its worklist (PS3.4 K.6.1.2.2): the study, and what goes into the Request Attributes
 * (PS3.3 Table 10-9). Values that do not fit their attribute are left out as if they were not there.
 *
 * @param study Study Instance UID (0020,000D)
 * @param accession Accession Number (0008,0050)
 * @param studyDate Study Date (0008,0020), where the item has one
 * @param studyTime Study Time (0008,0030), where the item has one
 * @param referring Referring Physician's Name (0008,0090)
 * @param procedureId Requested Procedure ID (0040,1001)
 * @param procedure Requested Procedure Description (0032,1060)
 * @param procedureCode Requested Procedure Code Sequence (0032,1064)
 * @param stepId Scheduled Procedure Step ID (0040,0009)
 * @param step Scheduled Procedure Step Description (0040,0007)
 * @param protocols Scheduled Protocol Code Sequence (0040,0008)
 * @param admission Admission ID (0038,0010)
 */
public record Order(
        Optional<Uid> study,
        Optional<String> accession,
        Optional<LocalDate> studyDate,
        Optional<LocalTime> studyTime,
        Optional<PersonName> referring,
        Optional<String> procedureId,
        Optional<String> procedure,
        Optional<Code> procedureCode,
        Optional<String> stepId,
        Optional<String> step,
        List<Code> protocols,
        Optional<String> admission) {

    public Order {
        protocols = List.copyOf(protocols);
    }

    /** What a worklist item orders; of several scheduled steps the first one counts, as one item has one (K.6.1.2.2). */
    public static Order of(DataSet item) {
        List<DataSet> steps = item.items(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE);
        DataSet step = steps.isEmpty() ? DataSet.EMPTY : steps.get(0);
        return new Order(
                item.text(Attributes.STUDY_INSTANCE_UID).flatMap(text -> Uid.parse(text.strip())),
                text(item, Attributes.ACCESSION_NUMBER),
                item.text(Attributes.STUDY_DATE).flatMap(Moments::day),
                item.text(Attributes.STUDY_TIME).flatMap(Moments::time),
                item.text(Attributes.REFERRING_PHYSICIAN_NAME)
                        .flatMap(PersonName::parse)
                        .filter(name -> !name.isEmpty()),
                text(item, Attributes.REQUESTED_PROCEDURE_ID),
                text(item, Attributes.REQUESTED_PROCEDURE_DESCRIPTION),
                codes(item, Attributes.REQUESTED_PROCEDURE_CODE_SEQUENCE).stream()
                        .findFirst(),
                text(step, Attributes.SCHEDULED_PROCEDURE_STEP_ID),
                text(step, Attributes.SCHEDULED_PROCEDURE_STEP_DESCRIPTION),
                codes(step, Attributes.SCHEDULED_PROTOCOL_CODE_SEQUENCE),
                text(item, Attributes.ADMISSION_ID));
    }

    private static Optional<String> text(DataSet item, Attribute attribute) {
        return item.text(attribute)
                .map(String::strip)
                .filter(text -> !text.isEmpty()
                        && TextForm.problem(attribute.vr(), text).isEmpty());
    }

    private static List<Code> codes(DataSet item, Attribute sequence) {
        return item.items(sequence).stream()
                .map(code -> new Code(
                        text(code, Attributes.CODE_VALUE).orElse(""),
                        text(code, Attributes.CODING_SCHEME_DESIGNATOR).orElse(""),
                        text(code, Attributes.CODE_MEANING).orElse("")))
                .filter(code -> !code.value().isEmpty()
                        && !code.scheme().isEmpty()
                        && !code.meaning().isEmpty())
                .toList();
    }

    /** Request Attributes Sequence (0040,0275): both ids are required where the procedure was scheduled, and here it was. */
    Optional<DataSet> requestAttributes(Optional<Uid> filedIn) {
        if (procedureId.isEmpty() || stepId.isEmpty()) {
            return Optional.empty();
        }
        DataSet.Builder item = DataSet.builder();
        item.put(Attributes.REQUESTED_PROCEDURE_ID, procedureId.get());
        item.putIfKnown(Attributes.ACCESSION_NUMBER, accession);
        item.putIfKnown(Attributes.STUDY_INSTANCE_UID, filedIn.map(Uid::value));
        item.putIfKnown(Attributes.REQUESTED_PROCEDURE_DESCRIPTION, procedure);
        procedureCode.ifPresent(code -> item.put(
                Attributes.REQUESTED_PROCEDURE_CODE_SEQUENCE,
                List.of(ImageModules.item(code).build())));
        item.put(Attributes.SCHEDULED_PROCEDURE_STEP_ID, stepId.get());
        item.putIfKnown(Attributes.SCHEDULED_PROCEDURE_STEP_DESCRIPTION, step);
        ImageModules.putCodes(item, Attributes.SCHEDULED_PROTOCOL_CODE_SEQUENCE, protocols);
        return Optional.of(item.build());
    }
}
