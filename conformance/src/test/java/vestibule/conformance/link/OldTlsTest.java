package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.conformance.peer.OpensslServer;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException.NotSecured;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.net.tls.TlsException.Mistake;
import vestibule.dicom.net.tls.TlsFiles;
import vestibule.dicom.service.VerificationUser;
import vestibule.samples.certificate.Authority;

@DisplayName("OpenSSL told to speak what PS3.15 B.12 no longer allows")
@Timeout(120)
class OldTlsTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final Deadlines AMPLE = Deadlines.all(Duration.ofSeconds(15));

    @TempDir
    static Path folder;

    private static Authority root;
    private static Authority.Pair own;
    private static Tls credentials;

    @BeforeAll
    static void certificates() throws Exception {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        root = Authority.root(folder, "root");
        own = root.issue("own");
        credentials = Tls.of(new TlsFiles(
                Optional.of(own.certificate()),
                Optional.of(own.key()),
                Optional.empty(),
                Optional.of(root.certificate()),
                true,
                false));
    }

    private static List<String> words(String text) {
        return List.of(text.split(" ", -1));
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("as a server: the sentence says that there is nothing in common, and what to allow there")
    @ValueSource(
            strings = {
                "-tls1 -cipher ALL:@SECLEVEL=0",
                "-tls1_1 -cipher ALL:@SECLEVEL=0",
                "-tls1_2 -cipher AES128-SHA:@SECLEVEL=0",
                "-tls1_2 -cipher AES128-GCM-SHA256"
            })
    void server(String told) throws IOException {
        try (OpensslServer server = OpensslServer.start(folder, own, words(told))) {
            ApplicationEntity peer = new ApplicationEntity(ARCHIVE, "127.0.0.1", server.port()).withTls(credentials);
            AssociationRequest request = AssociationRequest.of(new AeTitle("US"), List.of(VerificationUser.proposal()));
            NotSecured failure = catchThrowableOfType(NotSecured.class, () -> Association.open(request, peer, AMPLE));
            assertThat(failure)
                    .hasMessageStartingWith("ARCHIVE at 127.0.0.1:" + server.port())
                    .hasMessageContaining("shares no protocol version or cipher suite with us")
                    .hasMessageContaining("allow there TLS 1.2 or 1.3");
            assertThat(failure.mistake()).isEqualTo(Mistake.VERSION_OR_CIPHER);
        }
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("as a caller: it is turned away with an alert, and the sentence says why")
    @ValueSource(
            strings = {
                "-tls1 -cipher ALL:@SECLEVEL=0",
                "-tls1_1 -cipher ALL:@SECLEVEL=0",
                "-tls1_2 -cipher AES128-SHA:@SECLEVEL=0"
            })
    void caller(String told) throws Exception {
        Tool openssl = Tool.named("openssl");
        BlockingQueue<IOException> heard = new LinkedBlockingQueue<>();
        AssociationListener.Server server = new AssociationListener.Server() {
            @Override
            public void serve(Association association) throws IOException {
                throw new IOException("no association should come about");
            }

            @Override
            public void endedEarly(IOException why) {
                heard.add(why);
            }
        };
        AcceptorSettings settings =
                AcceptorSettings.of(ARCHIVE, List.of()).withDeadlines(AMPLE).withTls(credentials);
        try (AssociationListener listener = AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), settings, server)) {
            List<String> arguments = new java.util.ArrayList<>(List.of(
                    "s_client", "-connect", "127.0.0.1:" + listener.address().getPort()));
            arguments.addAll(words(told));
            Tool.Said said = openssl.run(arguments);
            assertThat(said.exit()).as(said.all()).isNotZero();
            assertThat(said.all()).contains("alert");
            IOException why = heard.poll(20, TimeUnit.SECONDS);
            assertThat(why)
                    .isInstanceOf(NotSecured.class)
                    .hasMessageContaining("shares no protocol version or cipher suite with us");
            assertThat(((NotSecured) why).mistake()).isEqualTo(Mistake.VERSION_OR_CIPHER);
        }
    }
}
