package vestibule.dicom.net.tls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static vestibule.dicom.net.tls.SecuredLink.entity;
import static vestibule.dicom.net.tls.SecuredLink.fails;
import static vestibule.dicom.net.tls.SecuredLink.files;
import static vestibule.dicom.net.tls.SecuredLink.listening;
import static vestibule.dicom.net.tls.SecuredLink.tls;
import static vestibule.dicom.net.tls.SecuredLink.trusting;
import static vestibule.dicom.net.tls.SecuredLink.wantingCertificates;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.net.AssociationException.NotSecured;
import vestibule.dicom.net.AssociationException.ProtocolViolation;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Tool;
import vestibule.dicom.net.tls.TlsException.Mistake;
import vestibule.samples.certificate.Authority;
import vestibule.samples.certificate.Authority.Validity;

@DisplayName("The usual mistakes with certificates, each told in a sentence (PS3.15 B.12)")
@Timeout(120)
class TlsMistakesTest {

    @TempDir
    static Path folder;

    private static Authority root;
    private static Authority.Pair archive;
    private static Tls trusting;

    @BeforeAll
    static void certificates() throws IOException {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        root = Authority.root(folder, "root");
        archive = root.issue("archive");
        trusting = tls(trusting(TlsFiles.NONE, root.certificate()));
    }

    private static void assertTold(NotSecured failure, Mistake mistake, String... words) {
        assertThat(failure).hasMessageContainingAll(words);
        assertThat(failure.mistake()).as(failure.getMessage()).isEqualTo(mistake);
    }

    private static Tls server(Authority.Pair pair) throws IOException {
        return tls(files(pair));
    }

    @Test
    @DisplayName("none of them: the link stands, also with a certificate of ours that is asked for")
    void none() throws IOException {
        try (AssociationListener listener = listening(Optional.of(server(archive)))) {
            SecuredLink.echo(entity(listener.address().getPort()).withTls(trusting));
        }
        Tls strict = tls(wantingCertificates(trusting(files(archive), root.certificate())));
        Tls us = tls(trusting(files(root.issue("us")), root.certificate()));
        try (AssociationListener listener = listening(Optional.of(strict))) {
            SecuredLink.echo(entity(listener.address().getPort()).withTls(us));
        }
    }

    @Test
    @DisplayName("expired")
    void expired() throws IOException {
        Authority.Pair old = root.issue("old", Validity.OVER, "IP:127.0.0.1");
        assertTold(fails(server(old), trusting), Mistake.EXPIRED, "“CN=old”", "ran out on 2021-01-01", "clocks");
    }

    @Test
    @DisplayName("not yet valid")
    void early() throws IOException {
        Authority.Pair early = root.issue("early", Validity.TO_COME, "IP:127.0.0.1");
        assertTold(fails(server(early), trusting), Mistake.NOT_YET_VALID, "valid from 2090-01-01 on", "clocks");
    }

    @Test
    @DisplayName("for another host; unchecked where the settings say so")
    void otherHost() throws IOException {
        Authority.Pair other = root.issue("other", Validity.NOW, "DNS:pacs.example,IP:192.0.2.7");
        assertTold(
                fails(server(other), trusting),
                Mistake.OTHER_NAME,
                "for pacs.example, 192.0.2.7 and not for 127.0.0.1",
                "tls.check-name");
        TlsFiles anyName = new TlsFiles(
                Optional.empty(), Optional.empty(), Optional.empty(), Optional.of(root.certificate()), false, false);
        try (AssociationListener listener = listening(Optional.of(server(other)))) {
            SecuredLink.echo(entity(listener.address().getPort()).withTls(tls(anyName)));
        }
    }

    @Test
    @DisplayName("from an authority that is not trusted")
    void unknownIssuer() throws IOException {
        Authority stranger = Authority.root(folder, "stranger");
        Authority.Pair pair = stranger.issue("strange");
        Path chain = joined("strange-chain.pem", pair.certificate(), stranger.certificate());
        assertTold(
                fails(server(new Authority.Pair(chain, pair.key())), trusting),
                Mistake.UNKNOWN_ISSUER,
                "authority “CN=stranger”",
                "those in " + root.certificate(),
                "tls.trust");
        assertTold(
                fails(server(pair), tls(TlsFiles.NONE)),
                Mistake.ISSUER_NOT_SENT,
                "those that Java trusts (tls.trust is not set)");
    }

    @Test
    @DisplayName("signed by itself; taken once it is trusted itself")
    void selfSigned() throws IOException {
        Authority.Pair alone = Authority.selfSigned(folder, "alone");
        assertTold(fails(server(alone), trusting), Mistake.SELF_SIGNED, "“CN=alone”", "fingerprint", "tls.trust");
        try (AssociationListener listener = listening(Optional.of(server(alone)))) {
            SecuredLink.echo(
                    entity(listener.address().getPort()).withTls(tls(trusting(TlsFiles.NONE, alone.certificate()))));
        }
    }

    @Test
    @DisplayName("without the intermediate certificate; taken once that is sent")
    void missingIntermediate() throws IOException {
        Authority between = root.intermediate("between");
        Authority.Pair below = between.issue("below");
        assertTold(
                fails(server(below), trusting),
                Mistake.ISSUER_NOT_SENT,
                "issued by “CN=between”",
                "send its intermediate certificates");
        Path chain = joined("below-chain.pem", below.certificate(), between.certificate());
        try (AssociationListener listener = listening(Optional.of(server(new Authority.Pair(chain, below.key()))))) {
            SecuredLink.echo(entity(listener.address().getPort()).withTls(trusting));
        }
    }

    @Test
    @DisplayName("with a key shorter than PS3.15 B.13 allows")
    void weak() throws IOException {
        assertTold(
                fails(server(root.issueWeak("weak")), trusting),
                Mistake.WEAK,
                "a key of 1024 bits, at least 2048",
                "PS3.15 B.13");
    }

    @Test
    @DisplayName("the peer wants a certificate of ours: none is set, or one it does not know")
    void certificateWanted() throws IOException {
        Tls strict = tls(wantingCertificates(trusting(files(archive), root.certificate())));
        assertTold(fails(strict, trusting), Mistake.OUR_CERTIFICATE_WANTED, "we have none", "tls.certificate");
        Tls unknown = tls(trusting(files(Authority.selfSigned(folder, "us-alone")), root.certificate()));
        assertTold(fails(strict, unknown), Mistake.OUR_CERTIFICATE_REFUSED, "does not take our certificate");
    }

    @ParameterizedTest(name = "alert {0} ({1}): {2}")
    @CsvSource({
        "70, protocol_version, TLS 1.2 or 1.3",
        "40, handshake_failure, TLS 1.2 or 1.3",
        "71, insufficient_security, TLS 1.2 or 1.3"
    })
    void no_protocol_version_or_cipher_suite_in_common(int alert, String name, String words) throws IOException {
        NotSecured failure = against("15030300020" + "2" + HexFormat.of().toHexDigits((byte) alert));
        assertTold(failure, Mistake.VERSION_OR_CIPHER, words, name);
    }

    @ParameterizedTest(name = "OpenSSL that speaks {0} with {1} only")
    @CsvSource({"-tls1_1, ALL:@SECLEVEL=0", "-tls1, ALL:@SECLEVEL=0", "-tls1_2, AES256-SHA:@SECLEVEL=0"})
    void a_peer_that_speaks_old_tls_only(String version, String ciphers) throws IOException {
        int port = Tool.freePort();
        try (Tool server = Tool.serve(
                folder,
                port,
                Map.of(),
                "openssl",
                "s_server",
                "-quiet",
                version,
                "-cipher",
                ciphers,
                "-cert",
                archive.certificate().toString(),
                "-key",
                archive.key().toString(),
                "-accept",
                "127.0.0.1:" + port)) {
            NotSecured failure = fails(entity(port).withTls(trusting));
            assertTold(failure, Mistake.VERSION_OR_CIPHER, "TLS 1.2 or 1.3 with ECDHE and AES-GCM");
            assertThat(server.output()).contains("error");
        }
    }

    /** RFC 8446 6.2 and PS3.8 9.3.8; what other servers say to a ClientHello. */
    @ParameterizedTest(name = "TLS against {2}")
    @CsvSource({
        "0700000000040000 0201, plain DICOM, call it as dicom://",
        "485454502f312e3120343030, a web server, not that of its web page",
        "5353482d322e302d, an SSH server, the port of the DICOM service",
        "0a0a0a0a0a, something else, does not speak TLS"
    })
    void the_port_of_another_protocol(String answer, String what, String words) throws IOException {
        assertTold(against(answer.replace(" ", "")), Mistake.NOT_TLS, words);
    }

    private static NotSecured against(String hex) throws IOException {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Thread answering = new Thread(() -> answer(server, HexFormat.of().parseHex(hex)), "answering");
            answering.start();
            return fails(entity(server.getLocalPort()).withTls(trusting));
        }
    }

    private static void answer(ServerSocket server, byte[] bytes) {
        try (Socket socket = server.accept()) {
            InputStream in = socket.getInputStream();
            assertThat(in.read()).isEqualTo(0x16);
            socket.getOutputStream().write(bytes);
            socket.shutdownOutput();
            in.transferTo(java.io.OutputStream.nullOutputStream());
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    @DisplayName("plain DICOM against a port of TLS, and TLS against one of plain DICOM, of our own making")
    void mixedUp() throws IOException {
        try (AssociationListener listener = listening(Optional.of(server(archive)))) {
            assertThatThrownBy(() -> SecuredLink.echo(entity(listener.address().getPort())))
                    .isInstanceOf(ProtocolViolation.class)
                    .hasMessageContaining("call it as dicoms://");
        }
        try (AssociationListener listener = listening(Optional.empty())) {
            assertTold(
                    fails(entity(listener.address().getPort()).withTls(trusting)),
                    Mistake.NOT_TLS,
                    "call it as dicom://");
        }
    }

    private static Path joined(String name, Path... files) throws IOException {
        StringBuilder all = new StringBuilder();
        for (Path file : List.of(files)) {
            all.append(Files.readString(file));
        }
        return Files.writeString(folder.resolve(name), all);
    }
}
