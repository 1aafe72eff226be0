package vestibule.dicom.net.tls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import javax.net.ssl.SSLContext;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.tls.CredentialsException.Mistake;
import vestibule.samples.certificate.Authority;

@DisplayName("Keys and certificates of ours, as files")
class CredentialsTest {

    @TempDir
    static Path folder;

    private static Authority root;
    private static Authority.Pair own;
    private static Path right;
    private static Path wrong;

    @BeforeAll
    static void certificates() throws IOException {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        root = Authority.root(folder, "root");
        own = root.issue("own");
        right = Files.writeString(folder.resolve("right.txt"), "a long phrase, with blanks\nsecond line\n");
        wrong = Files.writeString(folder.resolve("wrong.txt"), "another phrase\n");
    }

    private static TlsFiles files(Path certificate, Path key, Path passPhrase) {
        return new TlsFiles(
                Optional.ofNullable(certificate),
                Optional.ofNullable(key),
                Optional.ofNullable(passPhrase),
                Optional.of(root.certificate()),
                true,
                false);
    }

    private static void assertServes(TlsFiles files) throws IOException {
        Tls tls = SecuredLink.tls(files);
        try (AssociationListener listener = SecuredLink.listening(Optional.of(tls))) {
            SecuredLink.echo(SecuredLink.entity(listener.address().getPort()).withTls(tls));
        }
    }

    private static void assertRefused(TlsFiles files, Mistake mistake, String... words) {
        CredentialsException refused = catchThrowableOfType(CredentialsException.class, () -> Tls.of(files));
        assertThat(refused).as("a refusal").isNotNull().hasMessageContainingAll(words);
        assertThat(refused.mistake()).isEqualTo(mistake);
    }

    private static Path encrypted(String... scheme) throws IOException {
        Path key = folder.resolve("encrypted.key");
        root.openssl(Stream.concat(
                        Stream.of("pkcs8", "-topk8", "-in", "own.key", "-out", "encrypted.key"),
                        Stream.concat(Stream.of("-passout", "file:right.txt"), Arrays.stream(scheme)))
                .toList());
        return key;
    }

    @Test
    @DisplayName("PEM: two files, or one with the key behind the certificate")
    void pem() throws IOException {
        assertServes(files(own.certificate(), own.key(), null));
        Path both = folder.resolve("both.pem");
        Files.writeString(both, Files.readString(own.certificate()) + Files.readString(own.key()));
        assertServes(files(both, null, null));
    }

    @Test
    @DisplayName("PEM under a pass phrase, in the schemes openssl writes")
    void encryptedPem() throws IOException {
        assertServes(files(own.certificate(), encrypted("-v2", "aes-256-cbc"), right));
        assertServes(files(own.certificate(), encrypted("-v2", "aes-128-cbc", "-v2prf", "hmacWithSHA512"), right));
        assertRefused(
                files(own.certificate(), encrypted(), wrong),
                Mistake.WRONG_PASS_PHRASE,
                "encrypted.key",
                "tls.pass-phrase-file");
        assertRefused(files(own.certificate(), encrypted(), null), Mistake.NO_PASS_PHRASE, "tls.pass-phrase-file");
    }

    @Test
    @DisplayName("PKCS#12, which holds both")
    void pkcs12() throws IOException {
        root.openssl(List.of(
                "pkcs12",
                "-export",
                "-in",
                "own.pem",
                "-inkey",
                "own.key",
                "-out",
                "own.p12",
                "-passout",
                "file:right.txt"));
        Path store = folder.resolve("own.p12");
        assertServes(files(store, null, right));
        assertRefused(files(store, null, wrong), Mistake.WRONG_PASS_PHRASE, "own.p12");
        assertRefused(files(store, null, null), Mistake.NO_PASS_PHRASE, "own.p12");
    }

    @Test
    @DisplayName("a key that belongs to another certificate, of the same kind or another")
    void otherKey() throws IOException {
        assertRefused(
                files(own.certificate(), root.issue("second").key(), null), Mistake.OTHER_KEY, "second.key", "own.pem");
        assertRefused(files(own.certificate(), root.issueWeak("rsa").key(), null), Mistake.OTHER_KEY, "rsa.key");
    }

    @Test
    @DisplayName("files of other forms are named by what they are")
    void otherForms() throws IOException {
        root.openssl(List.of("ec", "-in", "own.key", "-out", "older.key"));
        assertRefused(
                files(own.certificate(), folder.resolve("older.key"), null),
                Mistake.FORMAT,
                "EC PRIVATE KEY",
                "openssl pkcs8 -topk8");
        Path text = Files.writeString(folder.resolve("notes.txt"), "eggs, bread, butter");
        assertRefused(files(text, own.key(), null), Mistake.FORMAT, "neither PEM", "notes.txt");
        Path store = Files.write(folder.resolve("store.jks"), new byte[] {(byte) 0xFE, (byte) 0xED, 0, 0, 0, 2});
        assertRefused(files(store, null, right), Mistake.FORMAT, "Java key store", "keytool -importkeystore");
        Path empty = Files.writeString(folder.resolve("empty.pem"), "");
        assertRefused(files(empty, null, null), Mistake.FORMAT, "is empty");
        Path der = Files.write(folder.resolve("broken.der"), new byte[] {0x30, 1, 2, 3});
        assertRefused(files(der, null, right), Mistake.FORMAT, "neither PEM nor PKCS#12");
        Path cut = Files.writeString(
                folder.resolve("cut.pem"), "-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n");
        assertRefused(files(cut, own.key(), null), Mistake.FORMAT, "cannot be read");
    }

    @Test
    @DisplayName("a key without its certificate, a certificate without its key, an empty pass phrase")
    void halves() throws IOException {
        assertRefused(files(null, own.key(), null), Mistake.INCOMPLETE, "without its certificate");
        assertRefused(files(own.certificate(), null, null), Mistake.INCOMPLETE, "tls.key");
        assertRefused(files(own.certificate(), own.certificate(), null), Mistake.NOTHING_IN_IT, "no private key");
        Path empty = Files.writeString(folder.resolve("empty.txt"), "\nsecond line");
        assertRefused(files(own.certificate(), own.key(), empty), Mistake.NO_PASS_PHRASE, "first line");
        Path accents = Files.writeString(folder.resolve("accents.txt"), "schlüssel");
        assertRefused(files(own.certificate(), own.key(), accents), Mistake.FORMAT, "beyond ASCII");
        CredentialsException nobody = catchThrowableOfType(
                CredentialsException.class, () -> Tls.of(TlsFiles.NONE).forServer());
        assertThat(nobody).hasMessageContaining("tls.certificate");
    }

    /** PS3.15 B.13 with the suites it requires; the JDK has no CCM. */
    @Test
    @DisplayName("every cipher suite we offer is one of PS3.15 B.13, and this Java has it")
    void suites() throws Exception {
        Set<String> ofB13 = Set.of(
                "TLS_AES_256_GCM_SHA384",
                "TLS_CHACHA20_POLY1305_SHA256",
                "TLS_AES_128_GCM_SHA256",
                "TLS_ECDHE_ECDSA_WITH_AES_256_GCM_SHA384",
                "TLS_ECDHE_RSA_WITH_AES_256_GCM_SHA384",
                "TLS_ECDHE_ECDSA_WITH_CHACHA20_POLY1305_SHA256",
                "TLS_ECDHE_RSA_WITH_CHACHA20_POLY1305_SHA256",
                "TLS_ECDHE_RSA_WITH_AES_128_GCM_SHA256",
                "TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256");
        assertThat(TlsProfile.CIPHER_SUITES).containsExactlyInAnyOrderElementsOf(ofB13);
        assertThat(SSLContext.getDefault().getSupportedSSLParameters().getCipherSuites())
                .containsAll(TlsProfile.CIPHER_SUITES);
    }
}
