package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.CertificateFactory;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException.DeadlinePassed;
import vestibule.dicom.net.AssociationException.NotSecured;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.net.tls.TlsException.Mistake;
import vestibule.dicom.net.tls.TlsFiles;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.VerificationProvider;
import vestibule.dicom.service.VerificationUser;
import vestibule.samples.certificate.Authority;

@DisplayName(
        "Callers that connect and then stall are ended by the deadline, and leave no thread and no socket (PS3.8 9.1.5)")
@Timeout(120)
class StalledCallersTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final Deadlines AMPLE = Deadlines.all(Duration.ofSeconds(15));
    private static final Deadlines SHORT = Deadlines.all(Duration.ofMillis(300));

    /** Where the handshake itself must succeed, on a machine that may be busy. */
    private static final Deadlines BRIEF = Deadlines.all(Duration.ofSeconds(2));

    private static final int PATIENCE_MILLIS = 20_000;
    private static final long TRICKLE = Duration.ofMillis(20).toNanos();

    @TempDir
    static Path folder;

    private static Tls credentials;
    private static SSLContext caller;

    /** What a caller does before it stalls. */
    private interface Start {
        void play(Socket socket) throws IOException;
    }

    private record Stall(String name, Deadlines deadlines, Start start) {}

    @BeforeAll
    static void certificates() throws Exception {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        Authority root = Authority.root(folder, "root");
        Authority.Pair own = root.issue("own");
        credentials = Tls.of(new TlsFiles(
                Optional.of(own.certificate()),
                Optional.of(own.key()),
                Optional.empty(),
                Optional.of(root.certificate()),
                true,
                false));
        caller = trusting(root.certificate());
        firstSockets();
    }

    /** The first socket that a Java closes makes it open a pair of its own, which stays. */
    private static void firstSockets() throws IOException {
        try (AssociationListener listener = listening(true, AMPLE, new LinkedBlockingQueue<>())) {
            assertServes(listener, true);
        }
    }

    private static SSLContext trusting(Path certificate) throws GeneralSecurityException, IOException {
        KeyStore trusted = KeyStore.getInstance(KeyStore.getDefaultType());
        trusted.load(null, null);
        try (InputStream in = Files.newInputStream(certificate)) {
            trusted.setCertificateEntry(
                    "root", CertificateFactory.getInstance("X.509").generateCertificate(in));
        }
        TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trust.init(trusted);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, trust.getTrustManagers(), null);
        return context;
    }

    private static AssociationListener listening(boolean secured, Deadlines deadlines, BlockingQueue<IOException> heard)
            throws IOException {
        ServiceProvider services = new ServiceProvider(List.of(new VerificationProvider()));
        AcceptorSettings settings =
                AcceptorSettings.of(ARCHIVE, services.contexts()).withDeadlines(deadlines);
        return AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                secured ? settings.withTls(credentials) : settings,
                new AssociationListener.Server() {
                    @Override
                    public void serve(Association association) throws IOException {
                        services.serve(association);
                    }

                    @Override
                    public void endedEarly(IOException why) {
                        heard.add(why);
                    }
                });
    }

    private static void assertServes(AssociationListener listener, boolean secured) throws IOException {
        ApplicationEntity plain =
                new ApplicationEntity(ARCHIVE, "127.0.0.1", listener.address().getPort());
        AssociationRequest request = AssociationRequest.of(new AeTitle("US"), List.of(VerificationUser.proposal()));
        try (Association association = Association.open(request, secured ? plain.withTls(credentials) : plain, AMPLE)) {
            assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
        }
    }

    /** What a caller says first (RFC 8446 4.1.2), as the JDK writes it. */
    private static byte[] clientHello() throws IOException {
        SSLEngine engine = caller.createSSLEngine("127.0.0.1", 1);
        engine.setUseClientMode(true);
        engine.beginHandshake();
        ByteBuffer hello = ByteBuffer.allocate(engine.getSession().getPacketBufferSize());
        engine.wrap(ByteBuffer.allocate(0), hello);
        return Arrays.copyOf(hello.array(), hello.position());
    }

    private static void trickle(Socket socket) throws IOException {
        OutputStream out = socket.getOutputStream();
        try {
            for (byte each : clientHello()) {
                out.write(each);
                LockSupport.parkNanos(TRICKLE);
            }
        } catch (SocketException cutOff) {
            assertThat(socket.isClosed()).isFalse();
        }
    }

    /** A handshake to its end, and then these bytes; the socket below is what is watched. */
    private static void secured(Socket socket, byte[] then) throws IOException {
        SSLSocket over =
                (SSLSocket) caller.getSocketFactory().createSocket(socket, "127.0.0.1", socket.getPort(), false);
        over.startHandshake();
        over.getOutputStream().write(then);
    }

    /** Half of an association request (PS3.8 Table 9-11): a header that declares 512 bytes, and two of them. */
    private static final byte[] HALF_A_REQUEST = {1, 0, 0, 0, 2, 0, 0, 1};

    @TestFactory
    @DisplayName("before TLS is agreed on")
    Stream<DynamicTest> beforeTheHandshake() {
        return Stream.of(
                        new Stall("silence from the start", SHORT, socket -> {}),
                        new Stall(
                                "one byte",
                                SHORT,
                                socket -> socket.getOutputStream().write(0x16)),
                        new Stall(
                                "half a ClientHello",
                                SHORT,
                                socket -> socket.getOutputStream()
                                        .write(Arrays.copyOf(clientHello(), clientHello().length / 2))),
                        new Stall("a ClientHello that trickles", SHORT, StalledCallersTest::trickle),
                        new Stall(
                                "silence after the ClientHello",
                                SHORT,
                                socket -> socket.getOutputStream().write(clientHello())))
                .map(stall -> dynamicTest(stall.name, () -> {
                    IOException why = endOf(stall, true);
                    assertThat(why).isInstanceOf(NotSecured.class).hasMessageContaining("did not end in time");
                    assertThat(((NotSecured) why).mistake()).isEqualTo(Mistake.NO_ANSWER);
                }));
    }

    @TestFactory
    @DisplayName("after that, before the association request is there")
    Stream<DynamicTest> beforeTheRequest() {
        return Stream.of(
                        new Stall("silence after the handshake", BRIEF, socket -> secured(socket, new byte[0])),
                        new Stall("half a request after it", BRIEF, socket -> secured(socket, HALF_A_REQUEST)))
                .map(stall -> dynamicTest(
                        stall.name, () -> assertThat(endOf(stall, true)).isInstanceOf(DeadlinePassed.class)));
    }

    @TestFactory
    @DisplayName("without TLS")
    Stream<DynamicTest> plain() {
        return Stream.of(
                        new Stall("silence", SHORT, socket -> {}),
                        new Stall(
                                "half a request",
                                SHORT,
                                socket -> socket.getOutputStream().write(HALF_A_REQUEST)))
                .map(stall -> dynamicTest(
                        stall.name, () -> assertThat(endOf(stall, false)).isInstanceOf(DeadlinePassed.class)));
    }

    /** How the provider tells the end of it. */
    private static IOException endOf(Stall stall, boolean secured) throws IOException, InterruptedException {
        Leftovers before = new Leftovers();
        BlockingQueue<IOException> heard = new LinkedBlockingQueue<>();
        IOException why;
        try (AssociationListener listener = listening(secured, stall.deadlines, heard)) {
            Leftovers listening = new Leftovers();
            try (Socket socket = new Socket(
                    InetAddress.getLoopbackAddress(), listener.address().getPort())) {
                socket.setSoTimeout(PATIENCE_MILLIS);
                stall.start.play(socket);
                assertEnds(socket);
            }
            why = heard.poll(PATIENCE_MILLIS, TimeUnit.MILLISECONDS);
            listening.assertNoSocketIsLeft();
            if (!stall.deadlines.equals(SHORT)) {
                assertServes(listener, secured);
            }
            listener.close(Duration.ofSeconds(10));
            assertThat(listener.associations()).isZero();
        }
        before.assertNothingIsLeft();
        return why == null ? new IOException("nothing was heard of it") : why;
    }

    private static void assertEnds(Socket socket) throws IOException {
        try {
            socket.getInputStream().transferTo(OutputStream.nullOutputStream());
        } catch (SocketException reset) {
            assertThat(reset).hasMessageContaining("reset");
        }
    }
}
