package vestibule.dicom.net.tls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.VerificationProvider;
import vestibule.dicom.service.VerificationUser;
import vestibule.samples.certificate.Authority;

/** A listener of ours behind TLS, and calls to it. */
final class SecuredLink {

    static final Deadlines AMPLE = Deadlines.all(Duration.ofSeconds(15));
    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");

    private SecuredLink() {}

    static TlsFiles files(Authority.Pair own) {
        return new TlsFiles(
                Optional.of(own.certificate()),
                Optional.of(own.key()),
                Optional.empty(),
                Optional.empty(),
                true,
                false);
    }

    static TlsFiles trusting(TlsFiles files, Path trust) {
        return new TlsFiles(
                files.certificate(),
                files.key(),
                files.passPhrase(),
                Optional.of(trust),
                files.checkName(),
                files.clientCertificate());
    }

    static TlsFiles wantingCertificates(TlsFiles files) {
        return new TlsFiles(
                files.certificate(), files.key(), files.passPhrase(), files.trust(), files.checkName(), true);
    }

    static Tls tls(TlsFiles files) throws IOException {
        try {
            return Tls.of(files);
        } catch (CredentialsException e) {
            throw new AssertionError(e);
        }
    }

    static AssociationListener listening(Optional<Tls> tls) throws IOException {
        ServiceProvider services = new ServiceProvider(List.of(new VerificationProvider()));
        AcceptorSettings settings = AcceptorSettings.of(ARCHIVE, List.of()).withDeadlines(AMPLE);
        return services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                tls.map(settings::withTls).orElse(settings));
    }

    static ApplicationEntity entity(int port) {
        return new ApplicationEntity(ARCHIVE, "127.0.0.1", port);
    }

    static void echo(ApplicationEntity peer) throws IOException {
        AssociationRequest request = AssociationRequest.of(new AeTitle("US"), List.of(VerificationUser.proposal()));
        try (Association association = Association.open(request, peer, AMPLE)) {
            EchoOutcome outcome = new VerificationUser(association).echo();
            if (outcome instanceof EchoOutcome.Unknown unknown) {
                throw unknown.cause();
            }
            assertThat(outcome).isInstanceOf(EchoOutcome.Alive.class);
        }
    }

    static AssociationException.NotSecured fails(Tls server, Tls client) throws IOException {
        try (AssociationListener listener = listening(Optional.of(server))) {
            return fails(entity(listener.address().getPort()).withTls(client));
        }
    }

    static AssociationException.NotSecured fails(ApplicationEntity peer) {
        AssociationException.NotSecured failure =
                catchThrowableOfType(AssociationException.NotSecured.class, () -> echo(peer));
        assertThat(failure).as("a failure to secure the link").isNotNull();
        return failure;
    }
}
