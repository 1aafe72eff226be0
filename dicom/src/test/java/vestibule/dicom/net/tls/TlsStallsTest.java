package vestibule.dicom.net.tls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HexFormat;
import java.util.List;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import javax.net.ssl.X509TrustManager;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.VerificationProvider;
import vestibule.samples.certificate.Authority;

@DisplayName("Callers that stall behind TLS are given up, and leave nothing (PS3.15 B.12, PS3.8 9.1.5)")
@Timeout(60)
class TlsStallsTest {

    private static final Deadlines SHORT = Deadlines.all(Duration.ofMillis(400));
    private static final Deadlines ENOUGH_TO_SHAKE_HANDS = Deadlines.all(Duration.ofSeconds(4));

    @TempDir
    static Path folder;

    private static Tls credentials;

    @BeforeAll
    static void certificates() throws IOException {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        credentials =
                SecuredLink.tls(SecuredLink.files(Authority.root(folder, "root").issue("archive")));
    }

    private static AssociationListener listening(Deadlines deadlines) throws IOException {
        return new ServiceProvider(List.of(new VerificationProvider()))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(new AeTitle("ARCHIVE"), List.of())
                                .withDeadlines(deadlines)
                                .withTls(credentials));
    }

    /** Ended by the far side, in order or not. */
    private static boolean isEnded(Socket socket) {
        try {
            socket.getInputStream().transferTo(java.io.OutputStream.nullOutputStream());
            return true;
        } catch (java.net.SocketTimeoutException e) {
            return false;
        } catch (IOException reset) {
            return true;
        }
    }

    private static void assertNothingIsLeft(AssociationListener listener) throws InterruptedException {
        List<Thread> serving = Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().matches("association-[0-9]+"))
                .toList();
        listener.close();
        for (Thread thread : serving) {
            thread.join(10_000);
            assertThat(thread.isAlive()).as(thread.getName()).isFalse();
        }
        assertThat(listener.associations()).isZero();
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "silence, ''",
        "half a record header, 1603",
        "a record that declares more than comes, 16030102000100",
        "the first bytes of a ClientHello, 16030100c8010000c40303",
    })
    void in_the_handshake(String name, String hex) throws Exception {
        AssociationListener listener = listening(SHORT);
        try (Socket socket =
                new Socket(InetAddress.getLoopbackAddress(), listener.address().getPort())) {
            socket.setSoTimeout(20_000);
            socket.getOutputStream().write(HexFormat.of().parseHex(hex));
            assertThat(isEnded(socket)).as(name).isTrue();
            assertNothingIsLeft(listener);
        } finally {
            listener.close();
        }
    }

    @Test
    @DisplayName("after the handshake, before the association request")
    void beforeTheRequest() throws Exception {
        AssociationListener listener = listening(ENOUGH_TO_SHAKE_HANDS);
        try (Socket plain =
                new Socket(InetAddress.getLoopbackAddress(), listener.address().getPort())) {
            plain.setSoTimeout(20_000);
            SSLSocket secured = (SSLSocket) trusting()
                    .getSocketFactory()
                    .createSocket(plain, "archive", listener.address().getPort(), false);
            secured.startHandshake();
            assertThat(isEnded(secured)).isTrue();
            assertNothingIsLeft(listener);
        } finally {
            listener.close();
        }
    }

    /** A caller that looks at no certificate; it is the listener that is looked at here. */
    private static SSLContext trusting() throws Exception {
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(
                null,
                new TrustManager[] {
                    new X509TrustManager() {
                        @Override
                        public void checkClientTrusted(java.security.cert.X509Certificate[] chain, String type) {}

                        @Override
                        public void checkServerTrusted(java.security.cert.X509Certificate[] chain, String type) {}

                        @Override
                        public java.security.cert.X509Certificate[] getAcceptedIssuers() {
                            return new java.security.cert.X509Certificate[0];
                        }
                    }
                },
                null);
        return context;
    }
}
