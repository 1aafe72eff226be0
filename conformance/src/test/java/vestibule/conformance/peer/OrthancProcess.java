package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;

/** Debian's Orthanc, as a process of its own over a folder of its own. */
public final class OrthancProcess implements ArchiveUnderTest {

    private static final String TITLE = "ARCHIVE";
    private static final Duration START = Duration.ofSeconds(60);

    private final Process process;
    private final Scratch scratch;
    private final int port;
    private final OrthancRest rest;

    private OrthancProcess(Process process, Scratch scratch, int port, OrthancRest rest) {
        this.process = process;
        this.scratch = scratch;
        this.port = port;
        this.rest = rest;
    }

    /** Starts one; the test is skipped where the program is absent. */
    public static OrthancProcess start() throws IOException {
        return start("Latin1", "NOBODY", 1);
    }

    /**
     * Starts one that knows a peer.
     *
     * @param encoding the character set of its answers, in its own words
     * @param peerTitle the AE title of a peer on this machine
     * @param peerPort its port
     */
    public static OrthancProcess start(String encoding, String peerTitle, int peerPort) throws IOException {
        return start(encoding, peerTitle, peerPort, "");
    }

    /** Starts one behind TLS; callers must show a certificate that it trusts. */
    public static OrthancProcess startSecured(Path certificate, Path key, Path trust) throws IOException {
        return start("Latin1", "NOBODY", 1, """
                  "DicomTlsEnabled": true,
                  "DicomTlsCertificate": "%s",
                  "DicomTlsPrivateKey": "%s",
                  "DicomTlsTrustedCertificates": "%s",
                """.formatted(certificate, key, trust));
    }

    /** Starts one that answers for a folder of worklist items; the test is skipped where the plug-in is absent. */
    public static OrthancProcess startWithWorklist(Path items) throws IOException {
        Path plugIn = Path.of("/usr/share/orthanc/plugins/libModalityWorklists.so");
        Assumptions.assumeTrue(Files.exists(plugIn), "Orthanc's worklist plug-in is not installed");
        // It answers worklist queries of peers that it knows only
        return start("Utf8", "VESTIBULE", 1, """
                  "Plugins": ["%s"],
                  "Worklists": { "Enable": true, "Database": "%s" },
                """.formatted(plugIn, items));
    }

    private static OrthancProcess start(String encoding, String peerTitle, int peerPort, String more)
            throws IOException {
        Tool orthanc = Tool.named("Orthanc");
        Scratch scratch = Scratch.create();
        Path folder = scratch.folder();
        int port = Deadline.freePort();
        int web = Deadline.freePort();
        Path settings = Files.writeString(
                folder.resolve("orthanc.json"),
                settings(folder, port, web, more).formatted(encoding, peerTitle, peerPort));
        Process process =
                orthanc.start(List.of(settings.toString()), folder.resolve("out.txt"), folder.resolve("err.txt"));
        OrthancRest rest = new OrthancRest("127.0.0.1", web);
        OrthancProcess archive = new OrthancProcess(process, scratch, port, rest);
        try {
            Deadline.await(START, "Orthanc answers", () -> {
                if (!process.isAlive()) {
                    throw new AssertionError("Orthanc ended: " + Files.readString(folder.resolve("err.txt")));
                }
                return rest.answers();
            });
            return archive;
        } catch (AssertionError e) {
            archive.close();
            throw e;
        }
    }

    private static String settings(Path folder, int port, int web, String more) {
        return """
                {
                  "Name": "an archive for tests",
                  "StorageDirectory": "%1$s/store",
                  "IndexDirectory": "%1$s/store",
                  "StorageCompression": false,
                  %5$s
                  "DicomAet": "%2$s",
                  "DicomPort": %3$d,
                  "DicomCheckCalledAet": true,
                  "DicomAlwaysAllowEcho": true,
                  "DicomAlwaysAllowStore": true,
                  "DicomAlwaysAllowFind": true,
                  "DicomAlwaysAllowGet": true,
                  "DicomAlwaysAllowMove": true,
                  "DicomModalities": { "peer": ["%%2$s", "127.0.0.1", %%3$d] },
                  "DefaultEncoding": "%%1$s",
                  "HttpPort": %4$d,
                  "RemoteAccessAllowed": false,
                  "AuthenticationEnabled": false,
                  "HttpDescribeErrors": true,
                  "ConcurrentJobs": 1
                }
                """.formatted(folder, TITLE, port, web, more);
    }

    @Override
    public String name() {
        return "Orthanc as a process";
    }

    @Override
    public String host() {
        return "127.0.0.1";
    }

    @Override
    public int port() {
        return port;
    }

    @Override
    public String title() {
        return TITLE;
    }

    @Override
    public Path fetch(String sopInstanceUid, Path target) throws IOException {
        return rest.fetch(sopInstanceUid, target);
    }

    @Override
    public List<String> instances() throws IOException {
        return rest.instances();
    }

    @Override
    public List<String> patientNames() throws IOException {
        return rest.patientNames();
    }

    @Override
    public void close() throws IOException {
        end(process);
        scratch.close();
    }

    static void end(Process process) {
        process.destroy();
        try {
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            process.destroyForcibly();
        }
    }
}
