package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;

@DisplayName("Modality Performed Procedure Step as its provider (PS3.4 F.7)")
@Timeout(60)
class PerformedStepProviderTest extends DcmtkFixture {

    private static final Uid STEP = new Uid("2.25.5");
    private static final Attribute STATUS = named("PerformedProcedureStepStatus");
    private static final Attribute SERIES = named("PerformedSeriesSequence");

    private final Map<Uid, DataSet> steps = new ConcurrentHashMap<>();
    private Association association;
    private PerformedStepUser user;

    private static Attribute named(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @BeforeEach
    void associated() throws IOException {
        PerformedStepProvider provider = new PerformedStepProvider(
                new PerformedStepProvider.Handler() {
                    @Override
                    public Optional<DataSet> find(Uid step) {
                        return Optional.ofNullable(steps.get(step));
                    }

                    @Override
                    public void keep(Uid step, DataSet attributes, AeTitle from) {
                        assertThat(from.value()).isEqualTo("VESTIBULE");
                        steps.put(step, attributes);
                    }
                },
                new Random(3));
        association =
                associate(Integer.parseInt(listening(provider)), "ARCHIVE", List.of(PerformedStepUser.proposal()));
        user = new PerformedStepUser(association);
    }

    /** Every attribute of type 1 and 2 in N-CREATE of PS3.4 Table F.7.2-1. */
    private static DataSet begun() {
        DataSet.Builder step = DataSet.builder();
        Stream.of(
                        "PatientName",
                        "PatientID",
                        "PatientBirthDate",
                        "PatientSex",
                        "ReferencedPatientSequence",
                        "PerformedStationName",
                        "PerformedLocation",
                        "PerformedProcedureStepDescription",
                        "PerformedProcedureTypeDescription",
                        "ProcedureCodeSequence",
                        "PerformedProcedureStepEndDate",
                        "PerformedProcedureStepEndTime",
                        "StudyID",
                        "PerformedProtocolCodeSequence",
                        "PerformedSeriesSequence")
                .forEach(keyword -> step.putEmpty(named(keyword)));
        DataSet.Builder scheduled = DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "2.25.6");
        Stream.of(
                        "ReferencedStudySequence",
                        "AccessionNumber",
                        "RequestedProcedureID",
                        "RequestedProcedureDescription",
                        "ScheduledProcedureStepID",
                        "ScheduledProcedureStepDescription",
                        "ScheduledProtocolCodeSequence")
                .forEach(keyword -> scheduled.putEmpty(named(keyword)));
        return step.put(named("ScheduledStepAttributesSequence"), List.of(scheduled.build()))
                .put(named("PerformedProcedureStepID"), "S1")
                .put(named("PerformedStationAETitle"), "VESTIBULE")
                .put(named("PerformedProcedureStepStartDate"), "20260105")
                .put(named("PerformedProcedureStepStartTime"), "101500")
                .put(STATUS, "IN PROGRESS")
                .put(Attributes.MODALITY, "XC")
                .build();
    }

    private static DataSet ended(String status) {
        DataSet series = DataSet.builder()
                .put(named("ProtocolName"), "photographs")
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.7")
                .putEmpty(named("PerformingPhysicianName"))
                .putEmpty(named("OperatorsName"))
                .putEmpty(named("SeriesDescription"))
                .putEmpty(named("RetrieveAETitle"))
                .putEmpty(named("ReferencedImageSequence"))
                .putEmpty(named("ReferencedNonImageCompositeSOPInstanceSequence"))
                .build();
        return DataSet.builder()
                .put(STATUS, status)
                .put(named("PerformedProcedureStepEndDate"), "20260105")
                .put(named("PerformedProcedureStepEndTime"), "103000")
                .put(SERIES, List.of(series))
                .build();
    }

    private static void assertDone(OperationOutcome outcome) {
        assertThat(outcome)
                .isInstanceOfSatisfying(
                        OperationOutcome.Done.class,
                        done -> assertThat(done.status().code()).isZero());
    }

    private static void assertRefused(OperationOutcome outcome, int status, String words) {
        assertThat(outcome).isInstanceOfSatisfying(OperationOutcome.Refused.class, refused -> {
            assertThat(refused.status().code()).isEqualTo(status);
            assertThat(refused.comment()).contains(words);
        });
    }

    @Test
    @DisplayName("begins, is changed, ends, and is changed no more; text beyond ASCII stays what it is")
    void life() {
        assertDone(user.create(
                STEP,
                begun().toBuilder().put(Attributes.PATIENT_NAME, "Weiß^Zoë").build()));
        assertDone(user.set(
                STEP,
                DataSet.builder()
                        .put(named("PerformedProcedureStepDescription"), "Übersicht")
                        .build()));
        assertDone(user.set(STEP, ended("COMPLETED")));
        DataSet kept = steps.get(STEP);
        assertThat(kept.text(Attributes.PATIENT_NAME)).contains("Weiß^Zoë");
        assertThat(kept.text(named("PerformedProcedureStepDescription"))).contains("Übersicht");
        assertThat(kept.text(STATUS)).contains("COMPLETED");
        assertThat(kept.items(SERIES)).hasSize(1);
        assertRefused(user.set(STEP, ended("DISCONTINUED")), 0x0110, "the step has ended");
        assertThat(steps.get(STEP)).isEqualTo(kept);
    }

    @Test
    @DisplayName(
            "a step that is discontinued has ended too, and Error ID A710 says so in the bytes of the answer (PS3.4 F.7.2.2)")
    void errorId() throws IOException {
        assertDone(user.create(STEP, begun()));
        assertDone(user.set(STEP, ended("DISCONTINUED")));
        Command set = Command.set(association.nextMessageId(), Uids.MODALITY_PERFORMED_PROCEDURE_STEP, STEP);
        association.send(association.contexts().get(0), set, ended("COMPLETED"));
        Command answer = association.answerTo(set).command();
        assertThat(answer.status()).isEqualTo(0x0110);
        assertThat(answer.errorId()).isEqualTo(OptionalInt.of(0xA710));
        assertThat(answer.sopInstance()).contains(STEP);
    }

    private record Wrong(String name, DataSet attributes, int status, String words) {}

    @TestFactory
    @DisplayName("what cannot begin is refused and not kept")
    Stream<DynamicTest> wrongBeginnings() {
        DataSet scheduledAlone =
                DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "2.25.6").build();
        return Stream.of(
                        new Wrong(
                                "completed",
                                begun().toBuilder().put(STATUS, "COMPLETED").build(),
                                0x0106,
                                "IN PROGRESS"),
                        new Wrong(
                                "no status", begun().toBuilder().remove(STATUS).build(), 0x0120, "(0040,0252)"),
                        new Wrong(
                                "an empty status",
                                begun().toBuilder().putEmpty(STATUS).build(),
                                0x0121,
                                "(0040,0252)"),
                        new Wrong(
                                "type 2 left out",
                                begun().toBuilder()
                                        .remove(Attributes.PATIENT_NAME)
                                        .build(),
                                0x0120,
                                "(0010,0010)"),
                        new Wrong(
                                "an item without what it needs",
                                begun().toBuilder()
                                        .put(named("ScheduledStepAttributesSequence"), List.of(scheduledAlone))
                                        .build(),
                                0x0120,
                                "(0008,1110)"))
                .map(wrong -> DynamicTest.dynamicTest(wrong.name, () -> {
                    assertRefused(user.create(STEP, wrong.attributes), wrong.status, wrong.words);
                    assertThat(steps).isEmpty();
                }));
    }

    @TestFactory
    @DisplayName("what cannot be changed is refused and changes nothing")
    Stream<DynamicTest> wrongChanges() {
        return Stream.of(
                        new Wrong("another patient", one(Attributes.PATIENT_ID, "P-2"), 0x0105, "(0010,0020)"),
                        new Wrong("a state of no step", one(STATUS, "PAUSED"), 0x0106, "IN PROGRESS, COMPLETED"),
                        new Wrong("ended without a series", one(STATUS, "COMPLETED"), 0x0121, "(0040,0250)"),
                        new Wrong(
                                "a series that nobody names",
                                ended("COMPLETED").toBuilder()
                                        .put(SERIES, List.of(one(named("ProtocolName"), "photographs")))
                                        .build(),
                                0x0120,
                                "(0008,1050)"))
                .map(wrong -> DynamicTest.dynamicTest(wrong.name, () -> {
                    steps.put(STEP, begun());
                    assertRefused(user.set(STEP, wrong.attributes), wrong.status, wrong.words);
                    assertThat(steps.get(STEP)).isEqualTo(begun());
                }));
    }

    private static DataSet one(Attribute attribute, String value) {
        return DataSet.builder().put(attribute, value).build();
    }

    @Test
    @DisplayName("no step twice, none that was never begun")
    void identifiers() {
        assertDone(user.create(STEP, begun()));
        assertRefused(user.create(STEP, begun()), 0x0111, "already");
        assertRefused(user.set(new Uid("2.25.8"), ended("COMPLETED")), 0x0112, "no such step");
        assertThat(steps).hasSize(1);
    }

    @Test
    @DisplayName("a step that comes without an identifier is given one, which the answer names (PS3.7 10.1.5.1.4)")
    void unnamed() throws IOException {
        Command create =
                new Command(Command.create(association.nextMessageId(), Uids.MODALITY_PERFORMED_PROCEDURE_STEP, STEP)
                        .elements()
                        .toBuilder()
                        .remove(Attributes.AFFECTED_SOP_INSTANCE_UID)
                        .build());
        Uid given = answerTo(create).sopInstance().orElseThrow();
        assertThat(steps).containsOnlyKeys(given);
        assertDone(user.set(given, ended("COMPLETED")));
    }

    @Test
    @DisplayName("operations of other services are answered as unknown")
    void otherOperation() throws IOException {
        Command action = Command.action(association.nextMessageId(), Uids.MODALITY_PERFORMED_PROCEDURE_STEP, STEP, 1);
        assertThat(answerTo(action).status()).isEqualTo(0x0211);
    }

    private Command answerTo(Command request) throws IOException {
        association.send(association.contexts().get(0), request, begun());
        Message answer = association.answerTo(request);
        return answer.command();
    }
}
