package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.RoleSelection;
import vestibule.dicom.net.ScriptedPeer;

@DisplayName("Storage Commitment (PS3.4 J)")
@Timeout(60)
class CommitmentTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final AeTitle US = new AeTitle("VESTIBULE");
    private static final Uid PHOTO = Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE;
    private static final SopReference FIRST = new SopReference(PHOTO, new Uid("2.25.1"));
    private static final SopReference SECOND = new SopReference(PHOTO, new Uid("2.25.2"));
    private static final CommitmentRequest REQUEST =
            new CommitmentRequest(new Uid("2.25.99"), List.of(FIRST, SECOND, FIRST));
    private static final CommitmentReport ALL =
            new CommitmentReport(REQUEST.transaction(), List.of(FIRST, SECOND), List.of());
    private static final CommitmentReport PART = new CommitmentReport(
            REQUEST.transaction(), List.of(FIRST), List.of(new CommitmentReport.Failure(SECOND, 0x0112)));
    private static final Duration LONG = Duration.ofSeconds(20);

    private final List<AutoCloseable> opened = new ArrayList<>();

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

    private ApplicationEntity listening(AeTitle title, ProvidedService service) throws IOException {
        AssociationListener listener = closedLater(new ServiceProvider(List.of(service))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(title, List.of())));
        return new ApplicationEntity(title, "127.0.0.1", listener.address().getPort());
    }

    private Association associate(ApplicationEntity peer) throws IOException {
        return closedLater(Association.open(
                AssociationRequest.of(US, List.of(CommitmentUser.proposal())), peer, Deadlines.DEFAULT));
    }

    @Test
    @DisplayName("the report comes on the same association, right after the answer")
    void sameAssociation() throws IOException {
        List<CommitmentRequest> asked = new CopyOnWriteArrayList<>();
        ApplicationEntity archive = listening(ARCHIVE, new CommitmentProvider((request, calling) -> {
            asked.add(request);
            return Optional.of(PART);
        }));
        Association association = associate(archive);
        CommitmentUser user = new CommitmentUser(association);
        assertThat(user.request(REQUEST)).isInstanceOf(OperationOutcome.Done.class);
        CommitmentReport report = user.awaitReport(LONG).orElseThrow();
        assertThat(report).isEqualTo(PART);
        assertThat(report.unmentioned(REQUEST)).isEmpty();
        assertThat(report.failed().get(0).words()).contains("send it again");
        assertThat(asked).containsExactly(REQUEST);
        assertThat(asked.get(0).objects()).as("each object once").containsExactly(FIRST, SECOND);
        association.release();
    }

    @Test
    @DisplayName("a report that comes before the answer to the request is kept")
    void reportBeforeAnswer() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            Command request = new Command(wire.readCommand());
            wire.read();
            wire.message(
                    1,
                    Command.eventReport(
                            7, Uids.STORAGE_COMMITMENT_PUSH_MODEL, Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE, 1),
                    ALL.toDataSet());
            assertThat(new Command(wire.readCommand()).status()).isZero();
            wire.message(1, request.response(0, false), DataSet.EMPTY);
        })) {
            CommitmentUser user = new CommitmentUser(associate(peer.entity()));
            assertThat(user.request(REQUEST)).isInstanceOf(OperationOutcome.Done.class);
            assertThat(user.awaitReport(LONG)).contains(ALL);
        }
    }

    @Test
    @DisplayName("requests that cross a report on the way are served, and each report comes, one after the other")
    void crossing() throws IOException {
        List<OperationOutcome> reported = new CopyOnWriteArrayList<>();
        CommitmentProvider commitment = new CommitmentProvider(new CommitmentProvider.Handler() {
            @Override
            public Optional<CommitmentReport> request(CommitmentRequest request, AeTitle calling) {
                return Optional.of(new CommitmentReport(request.transaction(), request.objects(), List.of()));
            }

            @Override
            public void reported(CommitmentReport report, OperationOutcome outcome) {
                reported.add(outcome);
            }
        });
        AssociationListener listener = closedLater(new ServiceProvider(List.of(commitment, new VerificationProvider()))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(ARCHIVE, List.of())));
        Association association = closedLater(Association.open(
                AssociationRequest.of(US, List.of(CommitmentUser.proposal(), VerificationUser.proposal())),
                new ApplicationEntity(ARCHIVE, "127.0.0.1", listener.address().getPort()),
                Deadlines.DEFAULT));
        List<Uid> transactions = new ArrayList<>();
        CommitmentUser user = new CommitmentUser(association, (report, from) -> transactions.add(report.transaction()));
        List<Command> sent = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            Uid transaction = new Uid("2.25." + (500 + i));
            Command action = Command.action(
                    association.nextMessageId(),
                    Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                    Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE,
                    1);
            association.send(
                    association.contexts().get(0),
                    action,
                    new CommitmentRequest(transaction, List.of(FIRST)).toDataSet());
            Command echo = Command.echo(association.nextMessageId(), Uids.VERIFICATION);
            association.send(association.contexts().get(1), echo);
            sent.add(action);
            sent.add(echo);
        }
        for (Command request : sent) {
            assertThat(association.answerTo(request).command().status()).isZero();
        }
        for (int i = 0; i < 3; i++) {
            assertThat(user.awaitReport(LONG)).isPresent();
        }
        assertThat(transactions).containsExactly(new Uid("2.25.500"), new Uid("2.25.501"), new Uid("2.25.502"));
        association.release();
        listener.close();
        assertThat(reported).hasSize(3).allMatch(OperationOutcome.Done.class::isInstance);
    }

    /** Takes responsibility for everything on the association that asked, and says what became of each report. */
    private static CommitmentProvider committingAll(Consumer<OperationOutcome> told) {
        return new CommitmentProvider(new CommitmentProvider.Handler() {
            @Override
            public Optional<CommitmentReport> request(CommitmentRequest request, AeTitle calling) {
                return Optional.of(ALL);
            }

            @Override
            public void reported(CommitmentReport report, OperationOutcome outcome) {
                told.accept(outcome);
            }
        });
    }

    @Test
    @DisplayName(
            "a report that nobody answers is told as unknown when the association ends, and so is none that had to wait")
    void unanswered() throws Exception {
        List<OperationOutcome> reported = new CopyOnWriteArrayList<>();
        CountDownLatch told = new CountDownLatch(2);
        ApplicationEntity archive = listening(ARCHIVE, committingAll(outcome -> {
            reported.add(outcome);
            told.countDown();
        }));
        Association association = associate(archive);
        association.onRequest((on, report) -> {});
        for (int i = 0; i < 2; i++) {
            Command action = Command.action(
                    association.nextMessageId(),
                    Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                    Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE,
                    1);
            association.send(association.contexts().get(0), action, REQUEST.toDataSet());
            assertThat(association.answerTo(action).command().status()).isZero();
        }
        association.release();
        assertThat(told.await(20, TimeUnit.SECONDS)).isTrue();
        assertThat(reported.get(0)).isInstanceOf(OperationOutcome.Unknown.class);
        assertThat(reported.get(1)).isInstanceOf(OperationOutcome.NotSent.class);
    }

    @Test
    @DisplayName("a caller that asks on and answers no report is aborted before its reports fill the memory")
    void neverAnswering() throws Exception {
        CountDownLatch told = new CountDownLatch(64);
        ApplicationEntity archive = listening(ARCHIVE, committingAll(outcome -> told.countDown()));
        Association association = associate(archive);
        association.onRequest((on, report) -> {});
        assertThatThrownBy(() -> {
                    for (int i = 0; i < 100; i++) {
                        actionStatus(association, 1, Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE, REQUEST.toDataSet());
                    }
                })
                .isInstanceOf(IOException.class);
        assertThat(told.await(20, TimeUnit.SECONDS))
                .as("all are told that they did not arrive")
                .isTrue();
    }

    @Test
    @DisplayName("no report in time is no fault: the association stands and may be released")
    void noReport() throws IOException {
        Association association =
                associate(listening(ARCHIVE, new CommitmentProvider((request, calling) -> Optional.empty())));
        CommitmentUser user = new CommitmentUser(association);
        assertThat(user.request(REQUEST)).isInstanceOf(OperationOutcome.Done.class);
        assertThat(user.awaitReport(Duration.ofMillis(100))).isEmpty();
        assertThat(association.isOpen()).isTrue();
        association.release();
    }

    @Test
    @DisplayName("the report comes later, on an association that the archive opens in the role of provider")
    void otherAssociation() throws IOException {
        List<CommitmentReport> reports = new CopyOnWriteArrayList<>();
        List<AeTitle> from = new CopyOnWriteArrayList<>();
        ApplicationEntity us = listening(US, new CommitmentReceiver((report, sender) -> {
            reports.add(report);
            from.add(sender);
        }));
        OperationOutcome outcome = new CommitmentReporter(ARCHIVE, Deadlines.DEFAULT).deliver(ALL, us);
        assertThat(outcome).isInstanceOf(OperationOutcome.Done.class);
        assertThat(reports).containsExactly(ALL);
        assertThat(from).containsExactly(ARCHIVE);
    }

    @Test
    @DisplayName("the listener grants the role of provider, and offers nothing but commitment")
    void listenerRoles() throws IOException {
        ApplicationEntity us = listening(US, new CommitmentReceiver((report, sender) -> {}));
        AssociationRequest request = AssociationRequest.of(
                        ARCHIVE,
                        List.of(
                                CommitmentUser.proposal(),
                                VerificationUser.proposal(),
                                ProposedContext.of(PHOTO, Uids.JPEG_BASELINE8_BIT)))
                .withRoles(List.of(new RoleSelection(Uids.STORAGE_COMMITMENT_PUSH_MODEL, true, true)));
        try (Association association = Association.open(request, us, Deadlines.DEFAULT)) {
            assertThat(association.roles())
                    .containsExactly(new RoleSelection(Uids.STORAGE_COMMITMENT_PUSH_MODEL, false, true));
            assertThat(association.contexts().stream().filter(context -> context.isAccepted()))
                    .hasSize(1);
            assertThat(new CommitmentUser(association).request(REQUEST))
                    .as("nobody can ask it to commit")
                    .isInstanceOf(OperationOutcome.Refused.class);
        }
    }

    @Test
    @DisplayName("a report that cannot be kept is not acknowledged, so that the archive may try again")
    void notKept() throws IOException {
        CountDownLatch calls = new CountDownLatch(3);
        ApplicationEntity us = listening(US, new CommitmentReceiver((report, sender) -> {
            calls.countDown();
            switch ((int) calls.getCount()) {
                case 2 -> throw new IOException("the disk is full");
                case 1 -> throw new RefusedException(Status.UNSUITABLE_ARGUMENT, "nobody asked for that");
                default -> throw new IllegalStateException("a fault");
            }
        }));
        CommitmentReporter reporter = new CommitmentReporter(ARCHIVE, Deadlines.DEFAULT);
        List<Integer> statuses = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            OperationOutcome.Refused refused = (OperationOutcome.Refused) reporter.deliver(ALL, us);
            statuses.add(refused.status().code());
        }
        assertThat(statuses).containsExactly(0x0110, 0x0115, 0x0110);
    }

    @Test
    @DisplayName("a report that contradicts itself or lacks what it must have is believed in no part")
    void oddReports() throws IOException {
        List<CommitmentReport> reports = new CopyOnWriteArrayList<>();
        ApplicationEntity us = listening(US, new CommitmentReceiver((report, sender) -> reports.add(report)));
        DataSet noTransaction =
                ALL.toDataSet().toBuilder().remove(Attributes.TRANSACTION_UID).build();
        DataSet both = PART.toDataSet().toBuilder()
                .put(Attributes.REFERENCED_SOP_SEQUENCE, List.of(FIRST.toItem(), SECOND.toItem()))
                .build();
        DataSet noInstance = ALL.toDataSet().toBuilder()
                .put(Attributes.REFERENCED_SOP_SEQUENCE, List.of(DataSet.EMPTY))
                .build();
        assertThat(status(us, 1, noTransaction)).isEqualTo(0x0115);
        assertThat(status(us, 2, both)).isEqualTo(0x0115);
        assertThat(status(us, 1, noInstance)).isEqualTo(0x0115);
        assertThat(status(us, 1, PART.toDataSet()))
                .as("all committed, yet failures")
                .isEqualTo(0x0115);
        assertThat(status(us, 3, ALL.toDataSet()))
                .as("an event type that does not exist")
                .isEqualTo(0x0113);
        assertThat(reports).isEmpty();
        assertThat(status(us, 2, PART.toDataSet())).isZero();
        assertThat(reports).containsExactly(PART);
        assertThatThrownBy(() -> CommitmentReport.of(noTransaction)).isInstanceOf(DicomFormatException.class);
    }

    private static int status(ApplicationEntity to, int eventType, DataSet information) throws IOException {
        AssociationRequest request = AssociationRequest.of(ARCHIVE, List.of(CommitmentUser.proposal()))
                .withRoles(List.of(new RoleSelection(Uids.STORAGE_COMMITMENT_PUSH_MODEL, false, true)));
        try (Association association = Association.open(request, to, Deadlines.DEFAULT)) {
            Command event = Command.eventReport(
                    1, Uids.STORAGE_COMMITMENT_PUSH_MODEL, Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE, eventType);
            association.send(association.contexts().get(0), event, information);
            return association.answerTo(event).command().status();
        }
    }

    @Test
    @DisplayName("a request that is refused, malformed or not for the well-known instance gets its status")
    void refusedRequests() throws IOException {
        ApplicationEntity archive = listening(ARCHIVE, new CommitmentProvider((request, calling) -> {
            throw new RefusedException(0x0213, "too many");
        }));
        Association association = associate(archive);
        OperationOutcome.Refused refused = (OperationOutcome.Refused) new CommitmentUser(association).request(REQUEST);
        assertThat(refused.status().code()).isEqualTo(0x0213);
        assertThat(refused.comment()).isEqualTo("too many");
        assertThat(actionStatus(
                        association,
                        1,
                        Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE,
                        ALL.toDataSet().toBuilder()
                                .remove(Attributes.REFERENCED_SOP_SEQUENCE)
                                .build()))
                .isEqualTo(0x0115);
        assertThat(actionStatus(association, 2, Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE, ALL.toDataSet()))
                .isEqualTo(0x0123);
        assertThat(actionStatus(association, 1, new Uid("1.2.3"), ALL.toDataSet()))
                .isEqualTo(0x0112);
    }

    private static int actionStatus(Association association, int type, Uid instance, DataSet information)
            throws IOException {
        Command action =
                Command.action(association.nextMessageId(), Uids.STORAGE_COMMITMENT_PUSH_MODEL, instance, type);
        association.send(association.contexts().get(0), action, information);
        return association.answerTo(action).command().status();
    }

    @Test
    @DisplayName(
            "an association that is lost while the report is awaited says so; the report may still come on another one")
    void lostWhileWaiting() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            Command request = new Command(wire.readCommand());
            wire.read();
            wire.message(1, request.response(0, false), DataSet.EMPTY);
        })) {
            CommitmentUser user = new CommitmentUser(associate(peer.entity()));
            assertThat(user.request(REQUEST)).isInstanceOf(OperationOutcome.Done.class);
            assertThatThrownBy(() -> user.awaitReport(LONG)).isInstanceOf(IOException.class);
        }
    }

    @Test
    @DisplayName("Modality Performed Procedure Step: created, set, refused once it is final (PS3.4 F.7)")
    void performedStep() throws Exception {
        CountDownLatch done = new CountDownLatch(1);
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            for (int status : new int[] {0x0000, 0x0116, 0x0110}) {
                Command request = new Command(wire.readCommand());
                wire.read();
                wire.message(1, request.response(status, false), DataSet.EMPTY);
            }
            done.countDown();
            wire.read();
        })) {
            Association association = closedLater(Association.open(
                    AssociationRequest.of(US, List.of(PerformedStepUser.proposal())),
                    peer.entity(),
                    Deadlines.DEFAULT));
            PerformedStepUser user = new PerformedStepUser(association);
            DataSet attributes =
                    DataSet.builder().put(Attributes.MODALITY, "XC").build();
            Uid step = new Uid("2.25.5");
            assertThat(user.create(step, attributes)).isInstanceOf(OperationOutcome.Done.class);
            assertThat(user.set(step, attributes)).isInstanceOf(OperationOutcome.Done.class);
            assertThat(user.set(step, attributes)).isInstanceOf(OperationOutcome.Refused.class);
            assertThat(done.await(10, TimeUnit.SECONDS)).isTrue();
            association.abort();
        }
    }
}
