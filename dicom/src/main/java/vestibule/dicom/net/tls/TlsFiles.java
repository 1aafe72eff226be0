package vestibule.dicom.net.tls;

import java.nio.file.Path;
import java.util.Optional;

/**
 * Where keys and certificates lie, and how strict to be with them. Paths only: no secret stands here.
 *
 * @param certificate our own certificate, with the intermediate ones behind it (PEM), or with its key (PKCS#12); empty to have none
 * @param key the key of our certificate, PKCS#8 in PEM; not used where the certificate is a PKCS#12 file
 * @param passPhrase a file whose first line opens the key or the PKCS#12 files
 * @param trust certificates we trust, PEM or PKCS#12: those of authorities, or a peer's own; empty for those Java trusts
 * @param checkName whether a peer's certificate must be for the host it was called by
 * @param clientCertificate whether those who call us must show a certificate we trust
 */
public record TlsFiles(
        Optional<Path> certificate,
        Optional<Path> key,
        Optional<Path> passPhrase,
        Optional<Path> trust,
        boolean checkName,
        boolean clientCertificate) {

    /** No certificate of ours, and the authorities that Java trusts. */
    public static final TlsFiles NONE =
            new TlsFiles(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), true, false);
}
