package vestibule.dicom.net.tls;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.net.tls.CredentialsException.Mistake;

/** One file of keys or certificates, told apart by its bytes rather than its name. */
final class CredentialFile {

    private static final long LARGEST = 1 << 20;
    private static final int DER_SEQUENCE = 0x30;
    private static final int JAVA_KEY_STORE = 0xFE;

    private final Path path;
    private final byte[] bytes;

    private CredentialFile(Path path, byte[] bytes) {
        this.path = path;
        this.bytes = bytes;
    }

    static CredentialFile read(Path path) throws IOException, CredentialsException {
        if (Files.size(path) > LARGEST) {
            throw new CredentialsException(
                    Mistake.FORMAT,
                    "%s is larger than 1 MB, which no file of keys or certificates is".formatted(path),
                    null);
        }
        return new CredentialFile(path, Files.readAllBytes(path));
    }

    Path path() {
        return path;
    }

    boolean isPem() {
        return text().contains("-----BEGIN ");
    }

    private String text() {
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    List<PemFile.Block> blocks() throws CredentialsException {
        try {
            return PemFile.blocks(text());
        } catch (IllegalArgumentException e) {
            throw format("is no whole PEM file: a block is not base64; copy it again", e);
        }
    }

    /** All certificates of the file, in their order. */
    List<X509Certificate> certificates(Optional<char[]> passPhrase) throws CredentialsException {
        List<X509Certificate> found = isPem() ? pemCertificates() : derCertificates(passPhrase);
        if (found.isEmpty()) {
            throw new CredentialsException(
                    Mistake.NOTHING_IN_IT,
                    "%s has no certificate in it; expected one or more, PEM (BEGIN CERTIFICATE) or PKCS#12"
                            .formatted(path),
                    null);
        }
        return found;
    }

    private List<X509Certificate> pemCertificates() throws CredentialsException {
        List<X509Certificate> found = new ArrayList<>();
        for (PemFile.Block block : blocks()) {
            if (block.label().equals("CERTIFICATE") || block.label().equals("TRUSTED CERTIFICATE")) {
                found.add(certificate(block.bytes()));
            }
        }
        return found;
    }

    private List<X509Certificate> derCertificates(Optional<char[]> passPhrase) throws CredentialsException {
        requireDer();
        try {
            return List.of((X509Certificate)
                    CertificateFactory.getInstance("X.509").generateCertificate(new ByteArrayInputStream(bytes)));
        } catch (CertificateException notASingleCertificate) {
            return storeCertificates(keyStore(passPhrase));
        }
    }

    private List<X509Certificate> storeCertificates(KeyStore store) throws CredentialsException {
        List<X509Certificate> found = new ArrayList<>();
        try {
            for (String alias : Collections.list(store.aliases())) {
                Certificate certificate = store.getCertificate(alias);
                if (certificate instanceof X509Certificate x509) {
                    found.add(x509);
                }
            }
        } catch (GeneralSecurityException e) {
            throw format("cannot be read: " + e.getMessage(), e);
        }
        return found;
    }

    private X509Certificate certificate(byte[] der) throws CredentialsException {
        try {
            return (X509Certificate)
                    CertificateFactory.getInstance("X.509").generateCertificate(new ByteArrayInputStream(der));
        } catch (CertificateException e) {
            throw format("has a certificate that cannot be read; copy the file again", e);
        }
    }

    /** The file as a PKCS#12 store. */
    KeyStore keyStore(Optional<char[]> passPhrase) throws CredentialsException {
        requireDer();
        try {
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(new ByteArrayInputStream(bytes), passPhrase.orElse(new char[0]));
            return store;
        } catch (IOException e) {
            if (e.getCause() instanceof GeneralSecurityException) {
                throw passPhrase.isPresent() ? wrongPassPhrase(e) : noPassPhrase(e);
            }
            throw format("is neither PEM nor PKCS#12; convert it, for one with openssl pkcs12 -export", e);
        } catch (GeneralSecurityException e) {
            throw format("cannot be read: " + e.getMessage(), e);
        }
    }

    private void requireDer() throws CredentialsException {
        int first = bytes.length == 0 ? -1 : bytes[0] & 0xFF;
        if (first == JAVA_KEY_STORE) {
            throw format(
                    "is a Java key store; make it PKCS#12 with keytool -importkeystore -deststoretype PKCS12", null);
        }
        if (first != DER_SEQUENCE) {
            throw format(
                    bytes.length == 0
                            ? "is empty; expected PEM (it begins with -----BEGIN) or PKCS#12"
                            : "is neither PEM (it would begin with -----BEGIN) nor PKCS#12; convert it, for one with openssl",
                    null);
        }
    }

    CredentialsException wrongPassPhrase(Throwable cause) {
        return new CredentialsException(
                Mistake.WRONG_PASS_PHRASE,
                "%s is not opened by the pass phrase; check the first line of the file that tls.pass-phrase-file names"
                        .formatted(path),
                cause);
    }

    CredentialsException noPassPhrase(@Nullable Throwable cause) {
        return new CredentialsException(
                Mistake.NO_PASS_PHRASE,
                "%s is locked by a pass phrase; write it into a file that only this user can read, and name that in tls.pass-phrase-file"
                        .formatted(path),
                cause);
    }

    CredentialsException format(String what, @Nullable Throwable cause) {
        return new CredentialsException(Mistake.FORMAT, "%s %s".formatted(path, what), cause);
    }
}
