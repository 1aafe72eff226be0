package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.conformance.peer.SecuredReceiver;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.tls.CredentialsException;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.net.tls.TlsFiles;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.VerificationProvider;
import vestibule.dicom.service.VerificationUser;
import vestibule.samples.certificate.Authority;

@DisplayName("TLS with DCMTK and Orthanc, certificates on both sides (PS3.15 B.12)")
@Timeout(180)
class TlsPeersTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");

    @TempDir
    static Path folder;

    private static Authority root;
    private static Authority.Pair own;
    private static Tls credentials;

    @BeforeAll
    static void certificates() throws IOException, CredentialsException {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        root = Authority.root(folder, "root");
        own = root.issue("own");
        credentials = Tls.of(new TlsFiles(
                Optional.of(own.certificate()),
                Optional.of(own.key()),
                Optional.empty(),
                Optional.of(root.certificate()),
                true,
                true));
    }

    private static void assertEchoes(ApplicationEntity peer) throws IOException {
        AssociationRequest request =
                AssociationRequest.of(new AeTitle("VESTIBULE"), List.of(VerificationUser.proposal()));
        try (Association association = Association.open(request, peer.withTls(credentials), Deadlines.DEFAULT)) {
            assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
        }
    }

    @Test
    @DisplayName("DCMTK's receiver, which wants a certificate of ours")
    void receiver() throws IOException {
        try (SecuredReceiver receiver = SecuredReceiver.start(folder, own, root.certificate())) {
            assertEchoes(new ApplicationEntity(ARCHIVE, "127.0.0.1", receiver.port()));
        }
    }

    @Test
    @DisplayName("DCMTK's sender calls us, with its certificate")
    void sender() throws IOException {
        Tool echoscu = Tool.named("echoscu");
        ServiceProvider services = new ServiceProvider(List.of(new VerificationProvider()));
        try (AssociationListener listener = services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                AcceptorSettings.of(ARCHIVE, List.of()).withTls(credentials))) {
            Tool.Said said = echoscu.run(
                    "+tls",
                    own.key().toString(),
                    own.certificate().toString(),
                    "+cf",
                    root.certificate().toString(),
                    "-aec",
                    "ARCHIVE",
                    "127.0.0.1",
                    Integer.toString(listener.address().getPort()));
            assertThat(said.exit()).as(said.all()).isZero();
        }
    }

    @Test
    @DisplayName("Orthanc")
    void orthanc() throws IOException {
        try (OrthancProcess orthanc = OrthancProcess.startSecured(own.certificate(), own.key(), root.certificate())) {
            assertEchoes(new ApplicationEntity(ARCHIVE, "127.0.0.1", orthanc.port()));
        }
    }
}
