package vestibule.dicom.service;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Dictionary;

/** Which attributes a performed procedure step must have when it is made, may be given later, and must have at its end (PS3.4 F.7.2). */
final class PerformedStepRules {

    static final Tag STATUS = Tag.of(0x0040, 0x0252);
    static final String IN_PROGRESS = "IN PROGRESS";

    /** The states in which nothing can be changed any more (PS3.4 F.7.2.2). */
    static final Set<String> FINAL = Set.of("COMPLETED", "DISCONTINUED");

    /**
     * PS3.4 Table F.7.2-1, those rows that ask for something: tag, in a sequence behind the sequence's; type in N-CREATE; whether N-SET may
     * change it; type in the final state.
     */
    static final String TABLE_F_7_2_1 = """
            00400270           1  no   -  ScheduledStepAttributesSequence
            00400270>0020000D  1  no   -  StudyInstanceUID
            00400270>00081110  2  no   -  ReferencedStudySequence
            00400270>00080050  2  no   -  AccessionNumber
            00400270>00401001  2  no   -  RequestedProcedureID
            00400270>00321060  2  no   -  RequestedProcedureDescription
            00400270>00400009  2  no   -  ScheduledProcedureStepID
            00400270>00400007  2  no   -  ScheduledProcedureStepDescription
            00400270>00400008  2  no   -  ScheduledProtocolCodeSequence
            00100010           2  no   -  PatientName
            00100020           2  no   -  PatientID
            00100021           3  no   -  IssuerOfPatientID
            00100024           3  no   -  IssuerOfPatientIDQualifiersSequence
            00101002           3  no   -  OtherPatientIDsSequence
            00100030           2  no   -  PatientBirthDate
            00100040           2  no   -  PatientSex
            00081120           2  no   -  ReferencedPatientSequence
            00380010           3  no   -  AdmissionID
            00380014           3  no   -  IssuerOfAdmissionIDSequence
            00380060           3  no   -  ServiceEpisodeID
            00380064           3  no   -  IssuerOfServiceEpisodeIDSequence
            00380062           3  no   -  ServiceEpisodeDescription
            00400253           1  no   -  PerformedProcedureStepID
            00400241           1  no   -  PerformedStationAETitle
            00400242           2  no   -  PerformedStationName
            00400243           2  no   -  PerformedLocation
            00400244           1  no   -  PerformedProcedureStepStartDate
            00400245           1  no   -  PerformedProcedureStepStartTime
            00400252           1  yes  -  PerformedProcedureStepStatus
            00400254           2  yes  -  PerformedProcedureStepDescription
            00400255           2  yes  -  PerformedProcedureTypeDescription
            00081032           2  yes  -  ProcedureCodeSequence
            00400250           2  yes  1  PerformedProcedureStepEndDate
            00400251           2  yes  1  PerformedProcedureStepEndTime
            00080060           1  no   -  Modality
            00200010           2  no   -  StudyID
            00400260           2  yes  -  PerformedProtocolCodeSequence
            00400340           2  yes  1  PerformedSeriesSequence
            00400340>00081050  2  yes  2  PerformingPhysicianName
            00400340>00181030  1  yes  1  ProtocolName
            00400340>00081070  2  yes  2  OperatorsName
            00400340>0020000E  1  yes  1  SeriesInstanceUID
            00400340>0008103E  2  yes  2  SeriesDescription
            00400340>00080054  2  yes  2  RetrieveAETitle
            00400340>00081140  2  yes  -  ReferencedImageSequence
            00400340>00400220  2  yes  -  ReferencedNonImageCompositeSOPInstanceSequence
            """;

    /** One row; {@code sequence} is empty for attributes of the step itself. */
    private record Row(Optional<Tag> sequence, Tag tag, String created, boolean changeable, String ended) {}

    private static final List<Row> ROWS =
            TABLE_F_7_2_1.lines().map(PerformedStepRules::row).toList();
    private static final Map<Tag, Row> BY_TAG = byTag();

    private PerformedStepRules() {}

    private static Row row(String line) {
        String[] cells = line.split(" +", 5);
        String[] path = cells[0].split(">", 2);
        Optional<Tag> sequence = path.length == 1 ? Optional.empty() : Optional.of(tag(path[0]));
        return new Row(sequence, tag(path[path.length - 1]), cells[1], cells[2].equals("yes"), cells[3]);
    }

    private static Tag tag(String digits) {
        return new Tag(Integer.parseUnsignedInt(digits, 16));
    }

    private static Map<Tag, Row> byTag() {
        Map<Tag, Row> rows = new HashMap<>();
        ROWS.stream().filter(row -> row.sequence.isEmpty()).forEach(row -> rows.put(row.tag, row));
        return rows;
    }

    /** Refuses attributes with which no step can be made. */
    static void checkCreation(DataSet attributes) throws RefusedException {
        for (Row row : ROWS) {
            require(attributes, row, row.created);
        }
        String state = state(attributes);
        if (!state.equals(IN_PROGRESS)) {
            throw new RefusedException(Status.INVALID_ATTRIBUTE_VALUE, "a step begins with the status IN PROGRESS");
        }
    }

    /** Refuses changes that a step must not see (PS3.4 F.7.2.2). */
    static void checkChanges(DataSet changes) throws RefusedException {
        for (Element element : changes) {
            Row row = BY_TAG.get(element.tag());
            if (row != null && !row.changeable) {
                throw new RefusedException(
                        Status.NO_SUCH_ATTRIBUTE, name(element.tag()) + " is not changed once a step is made");
            }
        }
        String state = state(changes);
        if (changes.find(STATUS).isPresent() && !state.equals(IN_PROGRESS) && !FINAL.contains(state)) {
            throw new RefusedException(
                    Status.INVALID_ATTRIBUTE_VALUE, "a step is IN PROGRESS, COMPLETED or DISCONTINUED");
        }
    }

    /** Refuses to end a step that lacks what an ended one must have. */
    static void checkEnd(DataSet step) throws RefusedException {
        for (Row row : ROWS) {
            require(step, row, row.ended);
        }
    }

    static boolean isFinal(DataSet step) {
        return FINAL.contains(state(step));
    }

    private static String state(DataSet step) {
        return step.find(STATUS)
                .filter(element -> element.value() instanceof Value.Texts)
                .flatMap(element ->
                        ((Value.Texts) element.value()).all().stream().findFirst())
                .map(String::strip)
                .orElse("");
    }

    private static void require(DataSet step, Row row, String type) throws RefusedException {
        if (!type.equals("1") && !type.equals("2")) {
            return;
        }
        for (DataSet place : places(step, row)) {
            Optional<Element> found = place.find(row.tag);
            if (found.isEmpty()) {
                throw new RefusedException(Status.MISSING_ATTRIBUTE, name(row.tag) + " is missing");
            }
            if (type.equals("1") && found.get().isEmpty()) {
                throw new RefusedException(Status.MISSING_ATTRIBUTE_VALUE, name(row.tag) + " has no value");
            }
        }
    }

    /** The step itself, or the items of the row's sequence. */
    private static List<DataSet> places(DataSet step, Row row) {
        if (row.sequence.isEmpty()) {
            return List.of(step);
        }
        return step.find(row.sequence.get())
                .map(element -> element.value() instanceof Value.Items items ? items.all() : List.<DataSet>of())
                .orElse(List.of());
    }

    private static String name(Tag tag) {
        return Dictionary.standard().describe(tag);
    }
}
