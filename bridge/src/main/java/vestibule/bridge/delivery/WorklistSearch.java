package vestibule.bridge.delivery;

import java.io.IOException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.WorklistUser;

/** Asks a practice system what is scheduled (PS3.4 K.4.1, Modality Worklist). */
public final class WorklistSearch {

    private static final int MOST_MATCHES = 2_000;
    private static final Duration ALLOWED = Duration.ofSeconds(30);

    private static final List<Attribute> KEYS = List.of(
            Attributes.PATIENT_NAME,
            Attributes.PATIENT_ID,
            Attributes.ISSUER_OF_PATIENT_ID,
            Attributes.OTHER_PATIENT_I_DS_SEQUENCE,
            Attributes.PATIENT_BIRTH_DATE,
            Attributes.PATIENT_SEX,
            Attributes.STUDY_INSTANCE_UID,
            Attributes.ACCESSION_NUMBER,
            Attributes.REFERRING_PHYSICIAN_NAME,
            Attributes.REQUESTED_PROCEDURE_ID,
            Attributes.REQUESTED_PROCEDURE_DESCRIPTION,
            named("RequestedProcedureCodeSequence"),
            named("AdmissionID"));

    private static final List<Attribute> STEP_KEYS = List.of(
            Attributes.MODALITY,
            Attributes.SCHEDULED_STATION_AE_TITLE,
            Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE,
            Attributes.SCHEDULED_PROCEDURE_STEP_START_TIME,
            Attributes.SCHEDULED_PROCEDURE_STEP_DESCRIPTION,
            Attributes.SCHEDULED_PROCEDURE_STEP_ID,
            named("ScheduledProtocolCodeSequence"));

    private final ApplicationEntity system;
    private final AeTitle calling;
    private final Deadlines deadlines;

    /** In that practice system, under our title. */
    public WorklistSearch(Destination system, String callingAe, Deadlines deadlines) {
        this.system = system.entity();
        this.calling = new AeTitle(callingAe);
        this.deadlines = deadlines;
    }

    /**
     * What is asked for; empty means any.
     *
     * @param patientId Patient ID
     * @param patientName Patient's Name, wild cards allowed
     * @param from the first day
     * @param to the last day
     * @param station Scheduled Station AE Title (0040,0001)
     * @param modality Modality (0008,0060)
     */
    public record Question(
            Optional<String> patientId,
            Optional<String> patientName,
            Optional<LocalDate> from,
            Optional<LocalDate> to,
            Optional<String> station,
            Optional<String> modality) {}

    /**
     * The items that match.
     *
     * @throws SearchException if the system does not answer, or not to the end
     * @throws IOException if no association comes about
     */
    public List<DataSet> items(Question question) throws IOException, SearchException {
        try (Association association =
                Association.open(AssociationRequest.of(calling, List.of(WorklistUser.proposal())), system, deadlines)) {
            return Searches.matches(
                    "practice system", new WorklistUser(association).find(keys(question), MOST_MATCHES, ALLOWED));
        }
    }

    private static DataSet keys(Question question) {
        DataSet.Builder step = DataSet.builder();
        STEP_KEYS.forEach(step::putEmpty);
        step.putOrEmpty(Attributes.MODALITY, question.modality());
        step.putOrEmpty(Attributes.SCHEDULED_STATION_AE_TITLE, question.station());
        step.putOrEmpty(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE, days(question));
        DataSet.Builder keys = DataSet.builder();
        KEYS.forEach(keys::putEmpty);
        keys.put(Attributes.SPECIFIC_CHARACTER_SET, Searches.ALL_SCRIPTS);
        keys.putOrEmpty(Attributes.PATIENT_ID, question.patientId());
        keys.putOrEmpty(Attributes.PATIENT_NAME, question.patientName());
        keys.put(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE, List.of(step.build()));
        return keys.build();
    }

    /** A day, or a range (PS3.4 C.2.2.2.5). */
    private static Optional<String> days(Question question) {
        Optional<String> from = question.from().map(DateTimeFormatter.BASIC_ISO_DATE::format);
        Optional<String> to = question.to().map(DateTimeFormatter.BASIC_ISO_DATE::format);
        if (from.isEmpty() && to.isEmpty()) {
            return Optional.empty();
        }
        return from.equals(to) ? from : Optional.of(from.orElse("") + "-" + to.orElse(""));
    }

    private static Attribute named(String keyword) {
        return Dictionary.standard()
                .find(keyword)
                .map(Dictionary.AttributeEntry::attribute)
                .orElseThrow(() -> new IllegalStateException("the dictionary has no " + keyword));
    }
}
