package vestibule.dicom.net.tls;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.Key;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.Signature;
import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.net.tls.CredentialsException.Mistake;

/**
 * A certificate of ours with its key.
 *
 * @param key its private key
 * @param chain the certificate, then those that lead to an authority
 */
record OwnIdentity(PrivateKey key, List<X509Certificate> chain) {

    OwnIdentity {
        chain = List.copyOf(chain);
    }

    /** The one that the files name; empty if they name none. */
    static Optional<OwnIdentity> read(TlsFiles files) throws IOException, CredentialsException {
        if (files.certificate().isEmpty()) {
            if (files.key().isPresent()) {
                throw new CredentialsException(
                        Mistake.INCOMPLETE,
                        "the key %s is named without its certificate; name that in tls.certificate"
                                .formatted(files.key().get()),
                        null);
            }
            return Optional.empty();
        }
        Optional<char[]> passPhrase = passPhrase(files);
        CredentialFile file = CredentialFile.read(files.certificate().get());
        OwnIdentity identity = file.isPem() ? fromPem(file, files.key(), passPhrase) : fromStore(file, passPhrase);
        identity.requireMatch(file.path(), files.key().orElse(file.path()));
        return Optional.of(identity);
    }

    static Optional<char[]> passPhrase(TlsFiles files) throws IOException, CredentialsException {
        if (files.passPhrase().isEmpty()) {
            return Optional.empty();
        }
        Path path = files.passPhrase().get();
        List<String> lines = Files.size(path) > 4096 ? List.of() : Files.readAllLines(path, StandardCharsets.UTF_8);
        if (lines.isEmpty() || lines.get(0).isEmpty()) {
            throw new CredentialsException(
                    Mistake.NO_PASS_PHRASE,
                    "%s has no pass phrase in its first line, where one is expected".formatted(path),
                    null);
        }
        if (!lines.get(0).chars().allMatch(c -> c >= ' ' && c <= '~')) {
            throw new CredentialsException(
                    Mistake.FORMAT,
                    "the pass phrase in %s has characters beyond ASCII, which programs encode differently; choose one without"
                            .formatted(path),
                    null);
        }
        return Optional.of(lines.get(0).toCharArray());
    }

    /** The key may lie in a file of its own or behind the certificate. */
    private static OwnIdentity fromPem(CredentialFile certificates, Optional<Path> keyFile, Optional<char[]> passPhrase)
            throws IOException, CredentialsException {
        List<X509Certificate> chain = certificates.certificates(passPhrase);
        CredentialFile file = keyFile.isPresent() ? CredentialFile.read(keyFile.get()) : certificates;
        PrivateKey key = PrivateKeys.read(
                file, certificates.path(), chain.get(0).getPublicKey().getAlgorithm(), passPhrase, keyFile.isPresent());
        return new OwnIdentity(key, chain);
    }

    private static OwnIdentity fromStore(CredentialFile file, Optional<char[]> passPhrase) throws CredentialsException {
        KeyStore store = file.keyStore(passPhrase);
        try {
            for (String alias : Collections.list(store.aliases())) {
                Key key = store.isKeyEntry(alias) ? store.getKey(alias, passPhrase.orElse(new char[0])) : null;
                Certificate[] chain = store.getCertificateChain(alias);
                if (key instanceof PrivateKey own && chain != null) {
                    return new OwnIdentity(own, x509(chain));
                }
            }
        } catch (GeneralSecurityException e) {
            throw file.wrongPassPhrase(e);
        }
        throw new CredentialsException(
                Mistake.NOTHING_IN_IT,
                "%s has no certificate with its key in it; export both together".formatted(file.path()),
                null);
    }

    private static List<X509Certificate> x509(Certificate[] chain) {
        List<X509Certificate> all = new ArrayList<>();
        for (Certificate each : chain) {
            if (each instanceof X509Certificate certificate) {
                all.add(certificate);
            }
        }
        return all;
    }

    private void requireMatch(Path certificateFile, Path keyFile) throws CredentialsException {
        boolean match;
        try {
            match = opens();
        } catch (GeneralSecurityException e) {
            throw otherKey(certificateFile, keyFile, e);
        }
        if (!match) {
            throw otherKey(certificateFile, keyFile, null);
        }
    }

    static CredentialsException otherKey(Path certificateFile, Path keyFile, @Nullable Throwable cause) {
        return new CredentialsException(
                Mistake.OTHER_KEY,
                "the key in %s does not belong to the first certificate in %s; name the key it was requested with, and put our own certificate first"
                        .formatted(keyFile, certificateFile),
                cause);
    }

    /** Whether what the key signs, the certificate confirms. */
    private boolean opens() throws GeneralSecurityException {
        String algorithm = switch (key.getAlgorithm()) {
            case "RSA" -> "SHA256withRSA";
            case "EC" -> "SHA256withECDSA";
            default -> key.getAlgorithm();
        };
        byte[] something = "whether key and certificate belong together".getBytes(StandardCharsets.US_ASCII);
        Signature signing = Signature.getInstance(algorithm);
        signing.initSign(key);
        signing.update(something);
        byte[] signature = signing.sign();
        Signature confirming = Signature.getInstance(algorithm);
        confirming.initVerify(chain.get(0).getPublicKey());
        confirming.update(something);
        return confirming.verify(signature);
    }
}
