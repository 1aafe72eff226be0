package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import vestibule.dicom.io.DicomFile;

/** DCMTK's receiver: accepts every transfer syntax and keeps each data set bit by bit as it came. */
public final class DcmtkReceiver implements AutoCloseable {

    private static final String TITLE = "RECEIVER";

    private final Process process;
    private final Path folder;
    private final int port;

    private DcmtkReceiver(Process process, Path folder, int port) {
        this.process = process;
        this.folder = folder;
        this.port = port;
    }

    /** Starts one that stores into a folder; the test is skipped where the program is absent. */
    public static DcmtkReceiver start(Path folder) throws IOException {
        Tool storescp = Tool.named("storescp");
        Path received = Files.createDirectories(folder.resolve("received"));
        int port = Deadline.freePort();
        List<String> arguments =
                List.of("-q", "-aet", TITLE, "+xa", "+B", "-od", received.toString(), "-pm", Integer.toString(port));
        Process process = storescp.start(arguments, folder.resolve("storescp.out"), folder.resolve("storescp.err"));
        Deadline.await(Duration.ofSeconds(20), "storescp listens", () -> {
            try (Socket probe = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return probe.isConnected();
            }
        });
        return new DcmtkReceiver(process, received, port);
    }

    /** The address for a command line. */
    public String url() {
        return "dicom://127.0.0.1:%d/%s".formatted(port, TITLE);
    }

    public int port() {
        return port;
    }

    public String title() {
        return TITLE;
    }

    /** What it has received, by SOP Instance UID. */
    public Map<String, Path> received() throws IOException {
        Map<String, Path> files = new HashMap<>();
        try (Stream<Path> all = Files.list(folder)) {
            for (Path file : (Iterable<Path>) all::iterator) {
                files.put(DicomFile.read(file).sopInstance().orElseThrow().value(), file);
            }
        }
        return files;
    }

    @Override
    public void close() {
        OrthancProcess.end(process);
    }
}
