package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.StepAttribute;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.RawRequestor;

@DisplayName("Performed procedure steps as their provider (PS3.4 F.7)")
@Timeout(60)
class PerformedStepProviderTest {

    private static final AeTitle SYSTEM = new AeTitle("SYSTEM");
    private static final AeTitle US = new AeTitle("VESTIBULE");
    private static final Uid STEP = new Uid("2.25.5");

    private final Kept kept = new Kept();
    private final List<AutoCloseable> opened = new ArrayList<>();
    private ApplicationEntity system = new ApplicationEntity(SYSTEM, "127.0.0.1", 1);

    /** Steps in memory. */
    private static final class Kept implements PerformedStepProvider.Register {

        private final Map<Uid, DataSet> steps = new HashMap<>();

        @Override
        public synchronized boolean create(Uid step, DataSet attributes, AeTitle calling) throws IOException {
            if (attributes.text(Attributes.PERFORMED_PROCEDURE_STEP_ID).equals(java.util.Optional.of("FULL"))) {
                throw new IOException("the disk is full");
            }
            assertThat(calling).isEqualTo(US);
            return steps.putIfAbsent(step, attributes) == null;
        }

        @Override
        public synchronized boolean update(Uid step, PerformedStepProvider.Change change, AeTitle calling)
                throws RefusedException {
            DataSet before = steps.get(step);
            if (before == null) {
                return false;
            }
            steps.put(step, change.apply(before));
            return true;
        }

        synchronized DataSet step(Uid step) {
            return steps.getOrDefault(step, DataSet.EMPTY);
        }

        synchronized int size() {
            return steps.size();
        }
    }

    @BeforeEach
    void listen() throws IOException {
        ServiceProvider services =
                new ServiceProvider(List.of(new PerformedStepProvider(kept, () -> new Uid("2.25.777"))));
        AssociationListener listener = closedLater(services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), AcceptorSettings.of(SYSTEM, List.of())));
        system = new ApplicationEntity(SYSTEM, "127.0.0.1", listener.address().getPort());
    }

    @AfterEach
    void close() throws Exception {
        for (int i = opened.size() - 1; i >= 0; i--) {
            opened.get(i).close();
        }
    }

    private <T extends AutoCloseable> T closedLater(T resource) {
        opened.add(resource);
        return resource;
    }

    private Association associate() throws IOException {
        return closedLater(Association.open(
                AssociationRequest.of(US, List.of(PerformedStepUser.proposal())), system, Deadlines.DEFAULT));
    }

    private PerformedStepUser user() throws IOException {
        return new PerformedStepUser(associate());
    }

    private static Attribute named(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    /** What Table F.7.2-1 asks for, by hand. */
    private static DataSet begun() {
        DataSet.Builder scheduled = DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.3");
        for (String keyword : List.of(
                "ReferencedStudySequence",
                "AccessionNumber",
                "RequestedProcedureID",
                "RequestedProcedureDescription",
                "ScheduledProcedureStepID",
                "ScheduledProcedureStepDescription",
                "ScheduledProtocolCodeSequence")) {
            scheduled.putEmpty(named(keyword));
        }
        DataSet.Builder step = DataSet.builder();
        for (String keyword : List.of(
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
                "PerformedSeriesSequence")) {
            step.putEmpty(named(keyword));
        }
        return step.put(Attributes.PATIENT_NAME, "Exempel^Zoë")
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 100")
                .put(named("ScheduledStepAttributesSequence"), List.of(scheduled.build()))
                .put(Attributes.PERFORMED_PROCEDURE_STEP_ID, "PPS-1")
                .put(named("PerformedStationAETitle"), "VESTIBULE")
                .put(Attributes.PERFORMED_PROCEDURE_STEP_START_DATE, "20260105")
                .put(Attributes.PERFORMED_PROCEDURE_STEP_START_TIME, "0915")
                .put(Attributes.PERFORMED_PROCEDURE_STEP_STATUS, "IN PROGRESS")
                .put(Attributes.MODALITY, "XC")
                .build();
    }

    private static DataSet ended(String state) {
        DataSet series = DataSet.builder()
                .put(Attributes.SERIES_INSTANCE_UID, "1.2.3.4")
                .put(Attributes.PROTOCOL_NAME, "Photographs")
                .putEmpty(Attributes.PERFORMING_PHYSICIAN_NAME)
                .putEmpty(Attributes.OPERATORS_NAME)
                .putEmpty(Attributes.SERIES_DESCRIPTION)
                .putEmpty(Attributes.RETRIEVE_AE_TITLE)
                .putEmpty(Attributes.REFERENCED_IMAGE_SEQUENCE)
                .putEmpty(named("ReferencedNonImageCompositeSOPInstanceSequence"))
                .build();
        return DataSet.builder()
                .put(Attributes.PERFORMED_PROCEDURE_STEP_STATUS, state)
                .put(Attributes.PERFORMED_PROCEDURE_STEP_END_DATE, "20260105")
                .put(Attributes.PERFORMED_PROCEDURE_STEP_END_TIME, "0930")
                .put(named("PerformedSeriesSequence"), List.of(series))
                .build();
    }

    private static int code(OperationOutcome outcome) {
        return outcome instanceof OperationOutcome.Refused refused
                ? refused.status().code()
                : ((OperationOutcome.Done) outcome).status().code();
    }

    @ParameterizedTest
    @ValueSource(strings = {"COMPLETED", "DISCONTINUED"})
    @DisplayName("a step begins, changes, ends, and is then left alone")
    void life(String end) throws IOException {
        PerformedStepUser user = user();
        assertThat(code(user.create(STEP, begun()))).isZero();
        DataSet change = DataSet.builder()
                .put(Attributes.PERFORMED_PROCEDURE_STEP_DESCRIPTION, "снимки")
                .build();
        assertThat(code(user.set(STEP, change))).isZero();
        assertThat(kept.step(STEP).text(Attributes.PERFORMED_PROCEDURE_STEP_DESCRIPTION))
                .contains("снимки");
        assertThat(code(user.set(STEP, ended(end)))).isZero();
        DataSet over = kept.step(STEP);
        assertThat(over.text(Attributes.PERFORMED_PROCEDURE_STEP_STATUS)).contains(end);
        assertThat(over.text(Attributes.PATIENT_NAME))
                .as("text of two character sets side by side")
                .contains("Exempel^Zoë");
        for (DataSet each : List.of(change, ended("IN PROGRESS"), ended(end))) {
            OperationOutcome.Refused refused = (OperationOutcome.Refused) user.set(STEP, each);
            assertThat(refused.status().code()).isEqualTo(0x0110);
            assertThat(refused.comment()).isEqualTo("Performed Procedure Step Object may no longer be updated");
        }
        assertThat(kept.step(STEP)).isEqualTo(over);
    }

    @Test
    @DisplayName("the refusal of a final step carries Error ID A710, and the association stands")
    void errorId() throws IOException {
        Association association = associate();
        PerformedStepUser user = new PerformedStepUser(association);
        user.create(STEP, begun());
        user.set(STEP, ended("COMPLETED"));
        Command set = Command.set(association.nextMessageId(), Uids.MODALITY_PERFORMED_PROCEDURE_STEP, STEP);
        association.send(association.contexts().get(0), set, ended("COMPLETED"));
        assertThat(association.answerTo(set).command().elements().integer(Attributes.ERROR_ID))
                .contains(0xA710L);
        assertThat(code(user.create(new Uid("2.25.6"), begun()))).isZero();
    }

    @Test
    @DisplayName("a second step of the same identifier is refused, and the first stays; an unknown step cannot be set")
    void instances() throws IOException {
        PerformedStepUser user = user();
        user.create(STEP, begun());
        DataSet first = kept.step(STEP);
        DataSet other = begun().toBuilder()
                .put(Attributes.PERFORMED_PROCEDURE_STEP_ID, "PPS-2")
                .build();
        assertThat(code(user.create(STEP, other))).isEqualTo(0x0111);
        assertThat(kept.step(STEP)).isEqualTo(first);
        assertThat(code(user.set(new Uid("2.25.6"), ended("COMPLETED")))).isEqualTo(0x0112);
        assertThat(kept.size()).isEqualTo(1);
    }

    @Test
    @DisplayName(
            "each attribute the table makes mandatory at creation is missed when absent, and when it must have a value, when empty")
    void mandatory() throws IOException {
        PerformedStepUser user = user();
        int checked = 0;
        for (StepAttribute each : StepAttribute.all()) {
            Attribute attribute = named(each.keyword());
            if (each.atCreation().equals("1") || each.atCreation().equals("2")) {
                OperationOutcome absent =
                        user.create(STEP, begun().toBuilder().remove(attribute).build());
                assertThat(code(absent)).as(each.keyword()).isEqualTo(0x0120);
                assertThat(((OperationOutcome.Refused) absent).comment()).isEqualTo(each.keyword() + " is missing");
                checked++;
            }
            if (each.atCreation().equals("1")) {
                assertThat(code(user.create(
                                STEP, begun().toBuilder().putEmpty(attribute).build())))
                        .as(each.keyword())
                        .isEqualTo(0x0121);
            }
        }
        assertThat(checked)
                .as("7 of type 1 and 15 of type 2, counted in the table of the standard")
                .isEqualTo(22);
        assertThat(kept.size()).isZero();
    }

    @Test
    @DisplayName("the items of sequences are looked into, at creation, at a change and at the end")
    void items() throws IOException {
        PerformedStepUser user = user();
        DataSet scheduled =
                begun().items(named("ScheduledStepAttributesSequence")).get(0);
        DataSet noStudy = begun().toBuilder()
                .put(
                        named("ScheduledStepAttributesSequence"),
                        List.of(scheduled.toBuilder()
                                .remove(Attributes.STUDY_INSTANCE_UID)
                                .build()))
                .build();
        assertThat(code(user.create(STEP, noStudy))).isEqualTo(0x0120);
        user.create(STEP, begun());
        DataSet series =
                ended("COMPLETED").items(named("PerformedSeriesSequence")).get(0);
        DataSet unnamed = DataSet.builder()
                .put(
                        named("PerformedSeriesSequence"),
                        List.of(series.toBuilder()
                                .putEmpty(Attributes.PROTOCOL_NAME)
                                .build()))
                .build();
        assertThat(code(user.set(STEP, unnamed))).isEqualTo(0x0121);
        DataSet noSeries = ended("COMPLETED").toBuilder()
                .remove(named("PerformedSeriesSequence"))
                .build();
        assertThat(code(user.set(STEP, noSeries))).as("empty since creation").isEqualTo(0x0121);
        assertThat(kept.step(STEP).text(Attributes.PERFORMED_PROCEDURE_STEP_STATUS))
                .contains("IN PROGRESS");
    }

    @ParameterizedTest
    @CsvSource({"COMPLETED,0106", "DISCONTINUED,0106", "DONE,0106", "in progress,0106", "'',0121"})
    @DisplayName("a step is created in progress and in no other state")
    void createdInProgress(String state, String status) throws IOException {
        DataSet step = begun().toBuilder()
                .put(Attributes.PERFORMED_PROCEDURE_STEP_STATUS, state)
                .build();
        assertThat(code(user().create(STEP, step))).isEqualTo(Integer.parseInt(status, 16));
        assertThat(kept.size()).isZero();
    }

    @Test
    @DisplayName("what only creation gives is not changed, and a state must be one")
    void notSet() throws IOException {
        PerformedStepUser user = user();
        user.create(STEP, begun());
        DataSet before = kept.step(STEP);
        DataSet name =
                DataSet.builder().put(Attributes.PATIENT_NAME, "Other^Name").build();
        OperationOutcome.Refused refused = (OperationOutcome.Refused) user.set(STEP, name);
        assertThat(refused.status().code()).isEqualTo(0x0105);
        assertThat(refused.comment()).isEqualTo("PatientName is not changed after creation");
        assertThat(code(user.set(STEP, ended("OVER")))).isEqualTo(0x0106);
        assertThat(kept.step(STEP)).isEqualTo(before);
    }

    @Test
    @DisplayName("a step that cannot be kept is not acknowledged")
    void notKept() throws IOException {
        DataSet step = begun().toBuilder()
                .put(Attributes.PERFORMED_PROCEDURE_STEP_ID, "FULL")
                .build();
        assertThat(code(user().create(STEP, step))).isEqualTo(0x0110);
    }

    @Test
    @DisplayName("of many who end the same step at once, one does and the others are refused")
    void race() throws Exception {
        user().create(STEP, begun());
        int callers = 8;
        ExecutorService threads = Executors.newFixedThreadPool(callers);
        List<Callable<Integer>> each = new ArrayList<>();
        for (int i = 0; i < callers; i++) {
            PerformedStepUser user = user();
            each.add(() -> code(user.set(STEP, ended("COMPLETED"))));
        }
        List<Integer> codes = new ArrayList<>();
        try {
            for (Future<Integer> one : threads.invokeAll(each)) {
                codes.add(one.get());
            }
        } finally {
            threads.shutdown();
        }
        assertThat(codes).containsOnlyOnce(0x0000).hasSize(callers);
        assertThat(codes.stream().filter(code -> code == 0x0110)).hasSize(callers - 1);
    }

    @Test
    @DisplayName(
            "commands assembled byte by byte: named by us, misnamed, of another class, without attributes, another operation")
    void rawCommands() throws IOException {
        String ours = element(0x0002, text("1.2.840.10008.3.1.2.3.3"));
        try (RawRequestor raw = RawRequestor.open(system, Uids.MODALITY_PERFORMED_PROCEDURE_STEP)) {
            Command named = raw.exchange(ours + create() + number(0x0110, 1) + number(0x0800, 1), begun());
            assertThat(named.status()).isZero();
            assertThat(named.sopInstance()).contains(new Uid("2.25.777"));
            assertThat(kept.step(new Uid("2.25.777")).isEmpty()).isFalse();
            String misnamed = element(0x1000, text("2.25.0x1"));
            assertThat(raw.exchange(ours + create() + number(0x0110, 2) + number(0x0800, 1) + misnamed, begun())
                            .status())
                    .isEqualTo(0x0117);
            String other = element(0x0002, text("1.2.840.10008.1.1"));
            assertThat(raw.exchange(other + create() + number(0x0110, 3) + number(0x0800, 1), begun())
                            .status())
                    .isEqualTo(0x0118);
            assertThat(raw.exchange(ours + create() + number(0x0110, 4) + number(0x0800, 0x0101), DataSet.EMPTY)
                            .status())
                    .isEqualTo(0x0120);
            String requested = element(0x0003, text("1.2.840.10008.3.1.2.3.3"));
            assertThat(raw.exchange(
                                    requested + number(0x0100, 0x0120) + number(0x0110, 5) + number(0x0800, 1),
                                    ended("COMPLETED"))
                            .status())
                    .as("N-SET of no instance")
                    .isEqualTo(0x0112);
            assertThat(raw.exchange(
                                    requested + number(0x0100, 0x0110) + number(0x0110, 6) + number(0x0800, 0x0101),
                                    DataSet.EMPTY)
                            .status())
                    .as("N-GET is another SOP class")
                    .isEqualTo(0x0211);
        }
        assertThat(kept.size()).isEqualTo(1);
    }

    private static String create() {
        return number(0x0100, 0x0140);
    }

    /** An element of group 0000 in Implicit VR Little Endian (PS3.5 7.1.3), in hexadecimal. */
    private static String element(int number, String value) {
        return "0000%s%s0000%s".formatted(little(number), little(value.length() / 2), value);
    }

    private static String number(int element, int value) {
        return element(element, little(value));
    }

    private static String little(int value) {
        return "%02x%02x".formatted(value & 0xFF, value >> 8);
    }

    private static String text(String value) {
        String even = value.length() % 2 == 0 ? value : value + "\0";
        return java.util.HexFormat.of().formatHex(even.getBytes(StandardCharsets.US_ASCII));
    }
}
