package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.Implementation;
import vestibule.dicom.net.AssociationException.Aborted;
import vestibule.dicom.net.AssociationException.Rejected;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

@DisplayName("An acceptor, whatever the caller does (PS3.8 9.2)")
@Timeout(60)
class AssociationListenerTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final AeTitle US = new AeTitle("US");
    private static final List<SupportedContext> ECHO_ONLY =
            List.of(SupportedContext.provider(Uids.VERIFICATION, List.of(Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    private static final AcceptorSettings AMPLE =
            AcceptorSettings.of(ARCHIVE, ECHO_ONLY).withDeadlines(Deadlines.all(Duration.ofSeconds(15)));
    private static final AcceptorSettings SHORT = AMPLE.withDeadlines(Deadlines.all(Duration.ofMillis(300)));
    private static final AssociationRequest ECHO =
            AssociationRequest.of(US, List.of(ProposedContext.of(Uids.VERIFICATION, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));

    private final List<AutoCloseable> opened = new ArrayList<>();

    @AfterEach
    void nothingIsLeft() throws Exception {
        for (int i = opened.size() - 1; i >= 0; i--) {
            opened.get(i).close();
        }
        for (Thread thread : Thread.getAllStackTraces().keySet()) {
            if (thread.getName().startsWith("association-")) {
                // A pool has ended a moment before the last of its threads has.
                thread.join(5_000);
                assertThat(thread.isAlive()).as(thread.getName()).isFalse();
            }
        }
    }

    private <T extends AutoCloseable> T closedLater(T resource) {
        opened.add(resource);
        return resource;
    }

    private AssociationListener listener(AcceptorSettings settings) throws IOException {
        return closedLater(AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), settings, AssociationListenerTest::echoes));
    }

    private static void echoes(Association association) throws IOException {
        Optional<Message> next = association.receive();
        while (next.isPresent()) {
            association.send(next.get().context(), next.get().command().response(0, false));
            next = association.receive();
        }
    }

    private static ApplicationEntity entity(AssociationListener listener, AeTitle called) {
        return new ApplicationEntity(called, "127.0.0.1", listener.address().getPort());
    }

    private Wire caller(AssociationListener listener) throws IOException {
        return closedLater(new Wire(
                new Socket(InetAddress.getLoopbackAddress(), listener.address().getPort())));
    }

    private static Pdu.AssociateRq request() {
        return request("ARCHIVE", "US", 1, Uids.DICOM_APPLICATION_CONTEXT.value());
    }

    private static Pdu.AssociateRq request(String called, String calling, int version, String applicationContext) {
        return new Pdu.AssociateRq(
                version,
                called,
                calling,
                "",
                applicationContext,
                List.of(new Pdu.ProposedItem(
                        1, Uids.VERIFICATION.value(), List.of(Uids.IMPLICIT_VR_LITTLE_ENDIAN.value()))),
                UserInformation.of(16_384, "1.2.3", "CALLER"));
    }

    @Test
    @DisplayName("names itself, echoes titles and reserved bytes, and answers")
    void acceptance() throws IOException {
        Wire wire = caller(listener(AMPLE));
        Pdu.AssociateRq asked = new Pdu.AssociateRq(
                1,
                "  ARCHIVE",
                "US",
                "x".repeat(32),
                Uids.DICOM_APPLICATION_CONTEXT.value(),
                request().contexts(),
                request().user());
        wire.write(asked);
        Pdu.AssociateAc accept = (Pdu.AssociateAc) wire.read();
        assertThat(accept.calledAe()).isEqualTo("  ARCHIVE       ");
        assertThat(accept.callingAe()).isEqualTo("US              ");
        assertThat(accept.reserved()).isEqualTo("x".repeat(32));
        assertThat(accept.user().implementationClass()).isEqualTo(Implementation.CLASS_UID.value());
        assertThat(accept.user().implementationVersion()).isEqualTo(Implementation.VERSION_NAME);
        assertThat(accept.user().maximumLength()).isEqualTo(AssociationRequest.DEFAULT_MAXIMUM_PDU_LENGTH);
        wire.write(Wire.data(1, true, true, Wire.encoded(Command.echo(7, Uids.VERIFICATION))));
        Command answer = new Command(wire.readCommand());
        assertThat(answer.respondedTo()).isEqualTo(7);
        wire.write(new Pdu.ReleaseRq());
        assertThat(wire.read()).isInstanceOf(Pdu.ReleaseRp.class);
    }

    private record Refusal(String name, AcceptorSettings settings, Pdu.AssociateRq request, Pdu.AssociateRj answer) {}

    @TestFactory
    @DisplayName("rejects with result, source and reason of PS3.8 Table 9-21")
    Stream<DynamicTest> rejections() {
        String context = Uids.DICOM_APPLICATION_CONTEXT.value();
        AcceptorSettings fewCallers = AMPLE.withCallers(Set.of(new AeTitle("KNOWN")));
        return Stream.of(
                        new Refusal(
                                "another called title",
                                AMPLE,
                                request("OTHER", "US", 1, context),
                                new Pdu.AssociateRj(1, 1, 7)),
                        new Refusal(
                                "a called title of spaces",
                                AMPLE.answeringToEveryTitle(),
                                request(" ", "US", 1, context),
                                new Pdu.AssociateRj(1, 1, 7)),
                        new Refusal(
                                "a calling title that is not on the list",
                                fewCallers,
                                request(),
                                new Pdu.AssociateRj(1, 1, 3)),
                        new Refusal(
                                "a calling title with a backslash",
                                AMPLE,
                                request("ARCHIVE", "A\\B", 1, context),
                                new Pdu.AssociateRj(1, 1, 3)),
                        new Refusal(
                                "another application context",
                                AMPLE,
                                request("ARCHIVE", "US", 1, "1.2.3"),
                                new Pdu.AssociateRj(1, 1, 2)),
                        new Refusal(
                                "another protocol version",
                                AMPLE,
                                request("ARCHIVE", "US", 2, context),
                                new Pdu.AssociateRj(1, 2, 2)),
                        new Refusal(
                                "a user who is not admitted",
                                AMPLE.withAdmission((calling, identity) -> AcceptorSettings.Decision.REFUSED),
                                request(),
                                new Pdu.AssociateRj(1, 2, 1)))
                .map(refusal -> DynamicTest.dynamicTest(refusal.name, () -> {
                    Wire wire = caller(listener(refusal.settings));
                    wire.write(refusal.request);
                    assertThat(wire.read()).isEqualTo(refusal.answer);
                    wire.close();
                }));
    }

    private record Trouble(String name, Wire2 caller, Optional<Pdu.Abort> answer) {}

    private interface Wire2 {
        void call(Wire wire) throws Exception;
    }

    @TestFactory
    @DisplayName("ends what is silent or against the protocol")
    Stream<DynamicTest> troubles() {
        byte[] request = vestibule.dicom.net.pdu.PduCodec.write(request()).array();
        return Stream.of(
                        new Trouble("silence from the start", wire -> {}, Optional.empty()),
                        new Trouble("half a request", wire -> wire.writePart(request(), 100), Optional.empty()),
                        new Trouble(
                                "a request that declares 4 GB",
                                wire -> wire.hex("01 00 FFFFFFFF 0001"),
                                Optional.of(new Pdu.Abort(0, 0))),
                        new Trouble(
                                "bytes that are no PDU",
                                wire -> wire.bytes(
                                        "GET / HTTP/1.0\r\n\r\n".getBytes(java.nio.charset.StandardCharsets.US_ASCII)),
                                Optional.of(new Pdu.Abort(0, 0))),
                        new Trouble(
                                "data before the request",
                                wire -> wire.write(Wire.data(1, true, true, new byte[2])),
                                Optional.of(new Pdu.Abort(0, 0))),
                        new Trouble(
                                "an abort instead of a request",
                                wire -> wire.write(new Pdu.Abort(0, 0)),
                                Optional.empty()),
                        new Trouble(
                                "a second request",
                                wire -> {
                                    wire.bytes(request);
                                    wire.read();
                                    wire.bytes(request);
                                },
                                Optional.of(new Pdu.Abort(2, 2))),
                        new Trouble(
                                "silence where a message is due",
                                wire -> {
                                    wire.bytes(request);
                                    wire.read();
                                },
                                Optional.of(new Pdu.Abort(0, 0))),
                        new Trouble(
                                "half a message",
                                wire -> {
                                    wire.bytes(request);
                                    wire.read();
                                    wire.write(Wire.data(1, true, false, new byte[2]));
                                },
                                Optional.of(new Pdu.Abort(0, 0))),
                        new Trouble(
                                "half a PDU",
                                wire -> {
                                    wire.bytes(request);
                                    wire.read();
                                    wire.hex("04 00 0000");
                                },
                                Optional.of(new Pdu.Abort(0, 0))),
                        new Trouble(
                                "a command with an unknown Command Field",
                                wire -> {
                                    wire.bytes(request);
                                    wire.read();
                                    wire.write(Wire.data(
                                            1,
                                            true,
                                            true,
                                            java.util.HexFormat.of()
                                                    .parseHex("00000001020000001234000010010200000001000000000802000000"
                                                            + "0101")));
                                },
                                Optional.of(new Pdu.Abort(2, 6))))
                .map(trouble -> DynamicTest.dynamicTest(trouble.name, () -> {
                    AssociationListener listener = listener(SHORT);
                    Wire wire = caller(listener);
                    trouble.caller.call(wire);
                    assertThat(wire.untilClosed()).isEqualTo(trouble.answer);
                    wire.close();
                    listener.close();
                    assertThat(listener.associations()).isZero();
                }));
    }

    @Test
    @DisplayName("a caller that never closes after a rejection is cut off when the ARTIM timer expires")
    void lingering() throws IOException {
        Wire wire = caller(listener(SHORT));
        wire.write(request("OTHER", "US", 1, Uids.DICOM_APPLICATION_CONTEXT.value()));
        assertThat(wire.read()).isInstanceOf(Pdu.AssociateRj.class);
        assertThat(wire.untilClosed()).isEmpty();
    }

    @Test
    @DisplayName("a caller that stops reading our answers is given up")
    void blockedAnswers() throws IOException, InterruptedException {
        CountDownLatch ended = new CountDownLatch(1);
        AssociationListener listener = closedLater(AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), SHORT, association -> {
                    try {
                        Message message = association.receive().orElseThrow();
                        Bulk much = Bulk.of(new byte[1 << 20]);
                        for (int i = 0; i < 64; i++) {
                            association.send(
                                    message.context(), message.command().response(0xFF00, true), much);
                        }
                    } catch (AssociationException.DeadlinePassed e) {
                        ended.countDown();
                        throw e;
                    }
                }));
        Wire wire = caller(listener);
        wire.write(request());
        wire.read();
        wire.write(Wire.data(1, true, true, Wire.encoded(Command.echo(1, Uids.VERIFICATION))));
        assertThat(ended.await(10, TimeUnit.SECONDS)).isTrue();
    }

    @Test
    @DisplayName("more associations than allowed are rejected for now, and served once one has ended")
    void limit() throws IOException {
        AssociationListener listener = listener(AMPLE.withMaximumAssociations(1));
        try (Association first = Association.open(ECHO, entity(listener, ARCHIVE), Deadlines.DEFAULT)) {
            Rejected rejected = catchThrowableOfType(
                    Rejected.class, () -> Association.open(ECHO, entity(listener, ARCHIVE), Deadlines.DEFAULT));
            assertThat(rejected.rejection()).isEqualTo(new Rejection(2, 3, 2));
            assertThat(rejected.rejection().isTransient()).isTrue();
            first.release();
        }
        assertThat(servedAgain(listener)).isTrue();
    }

    /** The place of an association is free a moment after its caller has seen the release. */
    private static boolean servedAgain(AssociationListener listener) throws IOException {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(10);
        while (System.nanoTime() < end) {
            try (Association association = Association.open(ECHO, entity(listener, ARCHIVE), Deadlines.DEFAULT)) {
                return association.isOpen();
            } catch (Rejected e) {
                assertThat(e.rejection().isTransient()).isTrue();
            }
        }
        return false;
    }

    @Test
    @DisplayName("closing aborts idle associations at once and lets nobody in any more")
    void stop() throws IOException {
        AssociationListener listener = listener(AMPLE);
        Association idle = Association.open(ECHO, entity(listener, ARCHIVE), Deadlines.DEFAULT);
        long start = System.nanoTime();
        Thread closing = new Thread(() -> listener.close(Duration.ofSeconds(10)), "closing");
        closing.start();
        Aborted aborted = catchThrowableOfType(Aborted.class, () -> idle.receive(Duration.ofSeconds(5)));
        assertThat(aborted.reason()).isEqualTo(AbortReason.BY_USER);
        assertThat(Duration.ofNanos(System.nanoTime() - start)).isLessThan(Duration.ofSeconds(3));
        assertThatThrownBy(() -> {
                    closing.join();
                    Association.open(ECHO, new ApplicationEntity(ARCHIVE, "127.0.0.1", 1), Deadlines.DEFAULT);
                })
                .isInstanceOf(AssociationException.NotReachable.class);
    }

    @Test
    @DisplayName("closing lets a busy association finish its message, and aborts it when the grace is over")
    void graceful() throws Exception {
        CountDownLatch working = new CountDownLatch(1);
        CountDownLatch mayFinish = new CountDownLatch(1);
        AssociationListener listener = closedLater(AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), AMPLE, association -> {
                    Message message = association.receive().orElseThrow();
                    working.countDown();
                    awaitUninterrupted(mayFinish);
                    association.send(message.context(), message.command().response(0, false));
                    association.receive();
                }));
        Association association = Association.open(ECHO, entity(listener, ARCHIVE), Deadlines.DEFAULT);
        Command request = Command.echo(1, Uids.VERIFICATION);
        association.send(association.contexts().get(0), request);
        working.await();
        Thread closing = new Thread(() -> listener.close(Duration.ofSeconds(10)), "closing");
        closing.start();
        mayFinish.countDown();
        assertThat(association.answerTo(request).command().status()).isZero();
        association.abort();
        closing.join();
    }

    private static void awaitUninterrupted(CountDownLatch latch) throws IOException {
        try {
            latch.await();
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
    }

    @Test
    @DisplayName("tells the server who calls: titles, implementation, user identity")
    void peerFacts() throws Exception {
        List<PeerFacts> seen = new java.util.concurrent.CopyOnWriteArrayList<>();
        AssociationListener listener = closedLater(AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), AMPLE, association -> {
                    seen.add(association.peer());
                    echoes(association);
                }));
        AssociationRequest named =
                ECHO.withIdentity(UserIdentity.withPasscode("nurse", "secret")).withMaximumPduLength(32_768);
        try (Association association = Association.open(named, entity(listener, ARCHIVE), Deadlines.DEFAULT)) {
            assertThat(association.peer().implementationVersion()).isEqualTo(Implementation.VERSION_NAME);
            association.release();
        }
        listener.close();
        assertThat(seen).hasSize(1);
        assertThat(seen.get(0).calling()).isEqualTo(US);
        assertThat(seen.get(0).called()).isEqualTo(ARCHIVE);
        assertThat(seen.get(0).maximumPduLength()).isEqualTo(32_768);
        UserIdentity identity = seen.get(0).identity().orElseThrow();
        assertThat(identity.type()).isEqualTo(UserIdentity.Type.NAME_AND_PASSCODE);
        assertThat(identity.secondary().bytes(100)).asString().isEqualTo("secret");
        assertThat(seen.toString()).doesNotContain("secret").doesNotContain("nurse");
    }

    @Test
    @DisplayName("a port in use is told in a sentence")
    void portInUse() throws IOException {
        AssociationListener first = listener(AMPLE);
        assertThatThrownBy(() -> AssociationListener.open(first.address(), AMPLE, AssociationListenerTest::echoes))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("another program may be using it: end that, or name another port");
    }
}
