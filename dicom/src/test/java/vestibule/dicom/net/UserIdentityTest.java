package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AssociationException.Rejected;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;
import vestibule.dicom.net.pdu.UserInformation.AsynchronousWindow;

@DisplayName("User identity and asynchronous operations window, negotiated (PS3.7 D.3.3.3, D.3.3.7)")
@Timeout(60)
class UserIdentityTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final AssociationRequest ECHO = AssociationRequest.of(
            new AeTitle("US"), List.of(ProposedContext.of(Uids.VERIFICATION, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    private static final AcceptorSettings AMPLE = AcceptorSettings.of(
                    ARCHIVE,
                    List.of(SupportedContext.provider(Uids.VERIFICATION, List.of(Uids.IMPLICIT_VR_LITTLE_ENDIAN))))
            .withDeadlines(Deadlines.all(Duration.ofSeconds(15)));

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

    private int listening(AcceptorSettings.Admission admission) throws IOException {
        return closedLater(AssociationListener.open(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AMPLE.withAdmission(admission),
                        UserIdentityTest::echoes))
                .address()
                .getPort();
    }

    private static void echoes(Association association) throws IOException {
        Optional<Message> next = association.receive();
        while (next.isPresent()) {
            association.send(next.get().context(), next.get().command().response(0, false));
            next = association.receive();
        }
    }

    private Optional<Bulk> answerTo(UserIdentity identity, int port) throws IOException {
        try (Association association = Association.open(
                ECHO.withIdentity(identity), new ApplicationEntity(ARCHIVE, "127.0.0.1", port), Deadlines.DEFAULT)) {
            return association.peer().identityResponse();
        }
    }

    private static Bulk ascii(String text) {
        return Bulk.of(text.getBytes(StandardCharsets.US_ASCII));
    }

    @Test
    @DisplayName("a token is answered by one of ours, a name by nothing, and who did not ask is not answered")
    void responses() throws IOException {
        int port = listening((calling, identity) -> identity.filter(
                        user -> user.type() == UserIdentity.Type.JSON_WEB_TOKEN)
                .map(user -> new AcceptorSettings.Decision(true, Optional.of(ascii("ours"))))
                .orElse(AcceptorSettings.Decision.ADMITTED));
        Bulk answer = answerTo(UserIdentity.of(UserIdentity.Type.JSON_WEB_TOKEN, ascii("theirs")), port)
                .orElseThrow();
        assertThat(answer.bytes(100)).asString(StandardCharsets.US_ASCII).isEqualTo("ours");
        assertThat(answerTo(UserIdentity.named("nurse").answered(), port)).contains(Bulk.EMPTY);
        assertThat(answerTo(UserIdentity.named("nurse"), port)).isEmpty();
    }

    @Test
    @DisplayName("where nobody examines identities, none is confirmed")
    void unexamined() throws IOException {
        int port = listening(AcceptorSettings.Admission.EVERYBODY);
        assertThat(answerTo(UserIdentity.named("nurse").answered(), port)).isEmpty();
    }

    @Test
    @DisplayName("who is not admitted by the passcode is rejected, and learns nothing else")
    void refused() throws IOException {
        int port = listening((calling, identity) -> identity.filter(UserIdentityTest::isRight)
                .map(user -> AcceptorSettings.Decision.ADMITTED)
                .orElse(AcceptorSettings.Decision.REFUSED));
        assertThat(answerTo(UserIdentity.withPasscode("nurse", "right").answered(), port))
                .contains(Bulk.EMPTY);
        assertThatThrownBy(() ->
                        answerTo(UserIdentity.withPasscode("nurse", "wrong").answered(), port))
                .isInstanceOf(Rejected.class)
                .hasMessageNotContainingAny("nurse", "wrong");
    }

    private static boolean isRight(UserIdentity identity) {
        try {
            return new String(identity.secondary().bytes(100), StandardCharsets.UTF_8).equals("right");
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    @DisplayName("an acceptor that does not know user identities says nothing, which is told apart from an answer")
    void unknown() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            Pdu.AssociateRq request = wire.accept();
            assertThat(request.user().identity().orElseThrow().responseWanted()).isTrue();
            wire.read();
        })) {
            Association association = closedLater(Association.open(
                    ECHO.withIdentity(UserIdentity.named("nurse").answered()), peer.entity(), Deadlines.DEFAULT));
            assertThat(association.peer().identityResponse()).isEmpty();
            association.abort();
        }
    }

    private Pdu.AssociateAc answerTo(Wire wire, Optional<AsynchronousWindow> window) throws IOException {
        wire.write(new Pdu.AssociateRq(
                1,
                "ARCHIVE",
                "US",
                "",
                Uids.DICOM_APPLICATION_CONTEXT.value(),
                List.of(new Pdu.ProposedItem(
                        1, Uids.VERIFICATION.value(), List.of(Uids.IMPLICIT_VR_LITTLE_ENDIAN.value()))),
                new UserInformation(
                        16_384,
                        "1.2.3",
                        "CALLER",
                        window,
                        List.of(),
                        List.of(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty())));
        return (Pdu.AssociateAc) wire.read();
    }

    private Wire calling() throws IOException {
        int port = listening(AcceptorSettings.Admission.EVERYBODY);
        return closedLater(new Wire(new Socket(InetAddress.getLoopbackAddress(), port)));
    }

    @Test
    @DisplayName(
            "whatever window is proposed, one operation at a time is agreed on; without a proposal nothing is said")
    void window() throws IOException {
        assertThat(answerTo(calling(), Optional.of(new AsynchronousWindow(0, 0)))
                        .user()
                        .asynchronous())
                .contains(new AsynchronousWindow(1, 1));
        assertThat(answerTo(calling(), Optional.of(new AsynchronousWindow(8, 5)))
                        .user()
                        .asynchronous())
                .contains(new AsynchronousWindow(1, 1));
        assertThat(answerTo(calling(), Optional.empty()).user().asynchronous()).isEmpty();
    }

    @Test
    @DisplayName(
            "we propose no window, which is one operation at a time, and send the next request only after the answer")
    void ours() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            assertThat(wire.accept().user().asynchronous()).isEmpty();
            for (int i = 0; i < 3; i++) {
                wire.answer(1, 0);
            }
            wire.read();
        })) {
            Association association = closedLater(Association.open(ECHO, peer.entity(), Deadlines.DEFAULT));
            for (int i = 0; i < 3; i++) {
                Command echo = Command.echo(association.nextMessageId(), Uids.VERIFICATION);
                association.send(association.contexts().get(0), echo);
                assertThat(association.answerTo(echo).command().respondedTo()).isEqualTo(echo.messageId());
            }
            association.abort();
        }
    }

    @Test
    @DisplayName("a caller that sends its next request too early still gets each answer, one after the other")
    void early() throws IOException {
        Wire wire = calling();
        answerTo(wire, Optional.of(new AsynchronousWindow(8, 8)));
        for (int message = 1; message <= 3; message++) {
            wire.write(Wire.data(1, true, true, Wire.encoded(Command.echo(message, Uids.VERIFICATION))));
        }
        for (int message = 1; message <= 3; message++) {
            assertThat(new Command(wire.readCommand()).respondedTo()).isEqualTo(message);
        }
    }
}
