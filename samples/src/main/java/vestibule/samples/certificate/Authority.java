package vestibule.samples.certificate;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** An authority of the practice: a key and a certificate in a folder, and the certificates it issues there. */
public final class Authority {

    private static final String FOR_THIS_MACHINE = "DNS:localhost,IP:127.0.0.1";
    private static final long PATIENCE_SECONDS = 60;

    /** When a certificate is valid, as {@code openssl ca} wants it. */
    public enum Validity {
        NOW("20200101000000Z", "20991231235959Z"),
        OVER("20200101000000Z", "20210101000000Z"),
        TO_COME("20900101000000Z", "20991231235959Z");

        private final String from;
        private final String to;

        Validity(String from, String to) {
            this.from = from;
            this.to = to;
        }
    }

    /**
     * A certificate with its key.
     *
     * @param certificate the certificate, PEM
     * @param key its key, PKCS#8 in PEM
     */
    public record Pair(Path certificate, Path key) {}

    private final Path folder;
    private final String name;

    private Authority(Path folder, String name) {
        this.folder = folder;
        this.name = name;
    }

    /** Whether the program that makes them is on this machine. */
    public static boolean isPossible() {
        return Stream.of(System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator, -1))
                .anyMatch(part -> Files.isExecutable(Path.of(part, "openssl")));
    }

    /** A new root. */
    public static Authority root(Path folder, String name) throws IOException {
        Authority root = new Authority(folder, name);
        root.prepare();
        root.openssl(
                List.of("req", "-x509", "-days", "3650", "-subj", "/CN=" + name, "-addext", "keyUsage=keyCertSign"),
                newKey(name),
                List.of("-out", name + ".pem"));
        return root;
    }

    /** An authority below this one. */
    public Authority intermediate(String below) throws IOException {
        Authority authority = new Authority(folder, below);
        authority.prepare();
        request(below, newKey(below));
        sign(below, Validity.NOW, "basicConstraints=critical,CA:TRUE");
        return authority;
    }

    /** A certificate for this machine. */
    public Pair issue(String subject) throws IOException {
        return issue(subject, Validity.NOW, FOR_THIS_MACHINE);
    }

    /** A certificate for those alternative names. */
    public Pair issue(String subject, Validity validity, String alternativeNames) throws IOException {
        return issue(subject, newKey(subject), validity, alternativeNames);
    }

    /** A certificate with a key that is shorter than the profiles of today allow. */
    public Pair issueWeak(String subject) throws IOException {
        List<String> shortKey = List.of("-newkey", "rsa:1024", "-nodes", "-keyout", subject + ".key");
        return issue(subject, shortKey, Validity.NOW, FOR_THIS_MACHINE);
    }

    private Pair issue(String subject, List<String> newKey, Validity validity, String alternativeNames)
            throws IOException {
        request(subject, newKey);
        sign(subject, validity, "basicConstraints=CA:FALSE\nsubjectAltName=" + alternativeNames);
        return pair(subject);
    }

    /** A certificate for this machine that stands for itself. */
    public static Pair selfSigned(Path folder, String subject) throws IOException {
        Authority nobody = new Authority(folder, subject);
        nobody.openssl(
                List.of("req", "-x509", "-days", "3650", "-subj", "/CN=" + subject),
                newKey(subject),
                List.of("-addext", "subjectAltName=" + FOR_THIS_MACHINE, "-out", subject + ".pem"));
        return nobody.pair(subject);
    }

    /** Its own certificate. */
    public Path certificate() {
        return folder.resolve(name + ".pem");
    }

    /** Runs {@code openssl} in the folder, for one to convert a file. */
    public void openssl(List<String> words) throws IOException {
        openssl(words, List.of(), List.of());
    }

    private Pair pair(String subject) {
        return new Pair(folder.resolve(subject + ".pem"), folder.resolve(subject + ".key"));
    }

    private static List<String> newKey(String subject) {
        return List.of("-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-keyout", subject + ".key");
    }

    private void prepare() throws IOException {
        Files.writeString(folder.resolve(name + ".index"), "");
        Files.writeString(folder.resolve(name + ".cnf"), """
                [ca]
                default_ca = own
                [own]
                database = %1$s.index
                new_certs_dir = .
                rand_serial = yes
                default_md = sha256
                policy = any
                unique_subject = no
                certificate = %1$s.pem
                private_key = %1$s.key
                [any]
                commonName = supplied
                """.formatted(name));
    }

    private void request(String subject, List<String> newKey) throws IOException {
        openssl(List.of("req", "-new", "-subj", "/CN=" + subject), newKey, List.of("-out", subject + ".csr"));
    }

    private void sign(String subject, Validity validity, String extensions) throws IOException {
        Files.writeString(folder.resolve(subject + ".ext"), extensions);
        openssl(
                List.of("ca", "-batch", "-notext", "-config", name + ".cnf", "-startdate", validity.from),
                List.of("-enddate", validity.to, "-extfile", subject + ".ext"),
                List.of("-in", subject + ".csr", "-out", subject + ".pem"));
    }

    private void openssl(List<String> first, List<String> second, List<String> third) throws IOException {
        List<String> command = new ArrayList<>(List.of("openssl"));
        Stream.of(first, second, third).forEach(command::addAll);
        Path said = Files.createTempFile(folder, "openssl", ".txt");
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        try {
            boolean done = process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS);
            process.destroyForcibly();
            if (!done || process.exitValue() != 0) {
                throw new IOException("%s: %s".formatted(command, Files.readString(said, StandardCharsets.UTF_8)));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while openssl ran", e);
        }
    }
}
