package vestibule.bridge.probe;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryOutcome;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.VerificationUser;
import vestibule.dicom.service.WorklistUser;

/** Echo, storage contexts, query and worklist of a probe. Nothing that is asked here changes anything, and no patient's data are shown. */
final class ServiceSteps {

    private static final int MOST = 500;

    private final Link link;
    private final Steps steps;
    private final Clock clock;
    private final RandomGenerator random;

    ServiceSteps(Link link, Steps steps, Clock clock, RandomGenerator random) {
        this.link = link;
        this.steps = steps;
        this.clock = clock;
        this.random = random;
    }

    void echo() {
        steps.begin(Step.Part.ECHO);
        try {
            EchoOutcome outcome = new VerificationUser(link.standing()).echo();
            if (outcome instanceof EchoOutcome.Alive alive) {
                steps.passed(
                        Step.Part.ECHO,
                        "answered in %d ms".formatted(alive.roundTrip().toMillis()));
            } else {
                steps.failed(Step.Part.ECHO, why(outcome));
            }
        } catch (AssociationException e) {
            steps.failed(Step.Part.ECHO, String.valueOf(e.getMessage()));
        }
    }

    private static String why(EchoOutcome outcome) {
        if (outcome instanceof EchoOutcome.Refused refused) {
            return "%s %s".formatted(refused.status(), refused.comment()).strip();
        }
        if (outcome instanceof EchoOutcome.NotSent notSent) {
            return notSent.reason();
        }
        return outcome instanceof EchoOutcome.Unknown unknown
                ? String.valueOf(unknown.cause().getMessage())
                : outcome.toString();
    }

    /** What the archive said to each storage context. */
    void contexts() {
        context(
                Step.Part.PHOTOGRAPHS,
                Uids.JPEG_BASELINE8_BIT,
                "VL Photographic Image Storage in JPEG Baseline",
                "nothing is unpacked or compressed again to suit it");
        context(
                Step.Part.UNPACKED,
                Uids.EXPLICIT_VR_LITTLE_ENDIAN,
                "VL Photographic Image Storage in Explicit VR Little Endian",
                "only the rare photographs of red, green and blue components need it");
        context(
                Step.Part.IMPLICIT,
                Uids.IMPLICIT_VR_LITTLE_ENDIAN,
                "VL Photographic Image Storage in Implicit VR Little Endian",
                "Vestibule itself does not need it");
    }

    private void context(Step.Part part, Uid transferSyntax, String what, String otherwise) {
        steps.begin(part);
        try {
            Association association = link.standing();
            Optional<NegotiatedContext> context = association.contexts().stream()
                    .filter(one -> one.abstractSyntax().equals(Optional.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE))
                            && one.proposed().equals(List.of(transferSyntax)))
                    .findFirst();
            if (context.filter(NegotiatedContext::isAccepted).isPresent()) {
                steps.passed(part, what + " is accepted");
            } else {
                String words = context.map(one -> one.result().words()).orElse("not answered");
                steps.failed(part, "%s: %s; %s".formatted(what, words, otherwise));
            }
        } catch (AssociationException e) {
            steps.failed(part, String.valueOf(e.getMessage()));
        }
    }

    /** Asks for a study that nobody has: an archive that answers with one does not match by the key. */
    void query() {
        steps.begin(Step.Part.QUERY);
        DataSet keys = DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, Uid.random(random).value())
                .build();
        try {
            QueryUser user = new QueryUser(link.standing(), QueryLevel.Model.STUDY_ROOT);
            QueryOutcome outcome = user.find(QueryLevel.STUDY, keys, MOST, patience());
            if (outcome instanceof QueryOutcome.Complete complete
                    && complete.matches().isEmpty()) {
                steps.passed(Step.Part.QUERY, "Study Root C-FIND answers");
            } else if (!outcome.matches().isEmpty()) {
                steps.failed(
                        Step.Part.QUERY,
                        "asked for a study that does not exist, it answered with %d others; its answers cannot be relied on, so do not let them decide"
                                .formatted(outcome.matches().size()));
            } else {
                steps.failed(Step.Part.QUERY, why(outcome));
            }
        } catch (AssociationException e) {
            steps.failed(Step.Part.QUERY, String.valueOf(e.getMessage()));
        }
    }

    /** Asks what is scheduled today, and counts. */
    void worklist() {
        steps.begin(Step.Part.WORKLIST);
        String today = DateTimeFormatter.BASIC_ISO_DATE.format(LocalDate.now(clock));
        DataSet step = DataSet.builder()
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE, today)
                .put(Attributes.SCHEDULED_STATION_AE_TITLE, "")
                .build();
        DataSet keys = DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, "")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE, List.of(step))
                .build();
        try {
            Association association = link.standing();
            if (association
                    .accepted(Uids.MODALITY_WORKLIST_INFORMATION_MODEL_FIND)
                    .isEmpty()) {
                steps.notOffered(
                        Step.Part.WORKLIST,
                        "no Modality Worklist here; where the practice system has one, probe that at its own URL");
                return;
            }
            QueryOutcome outcome = new WorklistUser(association).find(keys, MOST, patience());
            if (outcome instanceof QueryOutcome.Complete complete) {
                steps.passed(
                        Step.Part.WORKLIST,
                        "answers; entries for today: " + complete.matches().size());
            } else {
                steps.failed(Step.Part.WORKLIST, why(outcome));
            }
        } catch (AssociationException e) {
            steps.failed(Step.Part.WORKLIST, String.valueOf(e.getMessage()));
        }
    }

    private Duration patience() {
        return link.deadlines().response();
    }

    private static String why(QueryOutcome outcome) {
        if (outcome instanceof QueryOutcome.Refused refused) {
            return "%s %s".formatted(refused.status(), refused.comment()).strip();
        }
        if (outcome instanceof QueryOutcome.NotSent notSent) {
            return notSent.reason();
        }
        if (outcome instanceof QueryOutcome.CutShort cut) {
            return cut.reason();
        }
        return outcome instanceof QueryOutcome.Unknown unknown
                ? String.valueOf(unknown.cause().getMessage())
                : outcome.toString();
    }
}
