package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import vestibule.dicom.data.DataSet;

/** DCMTK's worklist server over a folder of items, as a practice system has them. */
public final class DcmtkWorklist implements AutoCloseable {

    private static final String TITLE = "WORKLIST";

    private final Process process;
    private final WorklistFolder items;
    private final int port;

    private DcmtkWorklist(Process process, WorklistFolder items, int port) {
        this.process = process;
        this.items = items;
        this.port = port;
    }

    /** Starts one without items; the test is skipped where the program is absent. */
    public static DcmtkWorklist start(Path folder) throws IOException {
        Tool server = Tool.named("wlmscpfs");
        Path items = Files.createDirectories(folder.resolve("worklists").resolve(TITLE));
        Files.createFile(items.resolve("lockfile"));
        int port = Deadline.freePort();
        Process process = server.start(
                List.of("-dfr", "-csk", "-dfp", folder.resolve("worklists").toString(), Integer.toString(port)),
                folder.resolve("wlmscpfs.out"),
                folder.resolve("wlmscpfs.err"));
        Deadline.await(Duration.ofSeconds(30), "wlmscpfs listens", () -> {
            try (Socket probe = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return probe.isConnected();
            }
        });
        return new DcmtkWorklist(process, new WorklistFolder(items), port);
    }

    /** Adds an item, in the character set that it names itself. */
    public void add(DataSet item) throws IOException {
        items.add(item);
    }

    /** The address for a command line. */
    public String url() {
        return "dicom://127.0.0.1:%d/%s".formatted(port, TITLE);
    }

    @Override
    public void close() {
        OrthancProcess.end(process);
    }
}
