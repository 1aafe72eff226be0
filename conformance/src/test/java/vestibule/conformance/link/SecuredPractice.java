package vestibule.conformance.link;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import vestibule.dicom.net.tls.CredentialsException;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.net.tls.TlsFiles;
import vestibule.samples.certificate.Authority;

/**
 * A practice with a certificate of its own and the authority that gave it.
 *
 * @param root the authority, which peers of the practice are issued by too
 * @param own the practice's certificate and key
 * @param credentials both, as a connection uses them
 */
record SecuredPractice(Authority root, Authority.Pair own, Tls credentials) {

    /** Makes them in a folder, as {@code root.pem}, {@code own.pem} and {@code own.key}; the test is skipped without OpenSSL. */
    static SecuredPractice in(Path folder) throws IOException, CredentialsException {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        Authority root = Authority.root(folder, "root");
        Authority.Pair own = root.issue("own");
        Tls credentials = Tls.of(new TlsFiles(
                Optional.of(own.certificate()),
                Optional.of(own.key()),
                Optional.empty(),
                Optional.of(root.certificate()),
                true,
                true));
        return new SecuredPractice(root, own, credentials);
    }
}
