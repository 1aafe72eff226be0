package vestibule.bridge.app;

import java.io.IOException;
import vestibule.bridge.settings.TlsSettings;
import vestibule.dicom.net.tls.CredentialsException;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.net.tls.TlsFiles;

/** Keys and certificates as the settings name them; one that cannot be used is a matter of the settings. */
final class Credentials {

    private Credentials() {}

    /** To call an archive. */
    static Tls client(TlsSettings settings) throws Failure, IOException {
        try {
            return tls(settings);
        } catch (CredentialsException e) {
            throw new Failure(Exit.WRONG_SETTINGS, e.getMessage() + ".");
        }
    }

    /** To be called. */
    static Tls server(TlsSettings settings) throws Failure, IOException {
        try {
            return tls(settings).forServer();
        } catch (CredentialsException e) {
            throw new Failure(Exit.WRONG_SETTINGS, e.getMessage() + ".");
        }
    }

    private static Tls tls(TlsSettings settings) throws CredentialsException, IOException {
        return Tls.of(new TlsFiles(
                settings.certificate(),
                settings.key(),
                settings.passPhrase(),
                settings.trust(),
                settings.checkName(),
                settings.clientCertificate()));
    }
}
