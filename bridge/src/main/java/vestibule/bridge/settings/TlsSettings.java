package vestibule.bridge.settings;

import java.nio.file.Path;
import java.util.Optional;

/**
 * Where the keys and certificates for TLS lie; no secret stands in the settings themselves. Paths without a root start at the folder of the
 * settings file.
 *
 * @param certificate our own certificate
 * @param key its key, unless it lies with the certificate
 * @param passPhrase a file whose first line opens them
 * @param trust the certificates we trust; unless said, those Java trusts
 * @param checkName whether an archive's certificate must be for the host it is called by
 * @param clientCertificate whether those who call us must show a certificate we trust
 */
public record TlsSettings(
        Optional<Path> certificate,
        Optional<Path> key,
        Optional<Path> passPhrase,
        Optional<Path> trust,
        boolean checkName,
        boolean clientCertificate) {

    /** What holds unless a practice says otherwise. */
    public static final TlsSettings USUAL =
            new TlsSettings(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), true, false);

    static TlsSettings read(SettingsReader reader) {
        return new TlsSettings(
                reader.path("tls.certificate"),
                reader.path("tls.key"),
                reader.path("tls.pass-phrase-file"),
                reader.path("tls.trust"),
                reader.flag("tls.check-name", true),
                reader.flag("tls.client-certificate", false));
    }
}
