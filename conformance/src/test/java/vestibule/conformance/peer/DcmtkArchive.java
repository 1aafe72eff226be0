package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;

/** DCMTK's archive, dcmqrscp: stores, answers queries, gives back. */
public final class DcmtkArchive implements AutoCloseable {

    private static final String TITLE = "QRSCP";

    private final Process process;
    private final int port;

    private DcmtkArchive(Process process, int port) {
        this.process = process;
        this.port = port;
    }

    /** Starts one over a folder; the test is skipped where the program is absent. */
    public static DcmtkArchive start(Path folder) throws IOException {
        Tool dcmqrscp = Tool.named("dcmqrscp");
        Path store = Files.createDirectories(folder.resolve("dcmqrscp"));
        int port = Deadline.freePort();
        Path configuration = Files.writeString(folder.resolve("dcmqrscp.cfg"), """
                MaxPDUSize = 16384
                MaxAssociations = 16
                HostTable BEGIN
                HostTable END
                VendorTable BEGIN
                VendorTable END
                AETable BEGIN
                %s %s RW (2000, 1024mb) ANY
                AETable END
                """.formatted(TITLE, store));
        Process process = dcmqrscp.start(
                List.of("-c", configuration.toString(), Integer.toString(port)),
                folder.resolve("dcmqrscp.out"),
                folder.resolve("dcmqrscp.err"));
        DcmtkArchive archive = new DcmtkArchive(process, port);
        try {
            Deadline.await(Duration.ofSeconds(30), "dcmqrscp listens", () -> {
                try (Socket probe = new Socket(InetAddress.getLoopbackAddress(), port)) {
                    return probe.isConnected();
                }
            });
            return archive;
        } catch (AssertionError e) {
            archive.close();
            throw e;
        }
    }

    public int port() {
        return port;
    }

    public String title() {
        return TITLE;
    }

    @Override
    public void close() {
        OrthancProcess.end(process);
    }
}
