package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import vestibule.samples.certificate.Authority;

/** DCMTK's receiver behind TLS; callers must show a certificate that it trusts. */
public final class SecuredReceiver implements AutoCloseable {

    private final Process process;
    private final int port;
    private final Path received;

    private SecuredReceiver(Process process, int port, Path received) {
        this.process = process;
        this.received = received;
        this.port = port;
    }

    /** Starts one; the test is skipped where the program is absent. */
    public static SecuredReceiver start(Path folder, Authority.Pair own, Path trust) throws IOException {
        Tool storescp = Tool.named("storescp");
        int port = Deadline.freePort();
        Path received = Files.createDirectories(folder.resolve("secured"));
        List<String> arguments = List.of(
                "+xa",
                "+B",
                "-od",
                received.toString(),
                "+tls",
                own.key().toString(),
                own.certificate().toString(),
                "+cf",
                trust.toString(),
                "-rc",
                Integer.toString(port));
        Process process = storescp.start(arguments, folder.resolve("secured.out"), folder.resolve("secured.err"));
        Deadline.await(Duration.ofSeconds(20), "storescp listens", () -> {
            try (Socket probe = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return probe.isConnected();
            }
        });
        return new SecuredReceiver(process, port, received);
    }

    public int port() {
        return port;
    }

    /** The files of all it has taken. */
    public List<Path> received() throws IOException {
        try (Stream<Path> all = Files.list(received)) {
            return all.toList();
        }
    }

    /** The one object it has taken. */
    public Path onlyFile() throws IOException {
        try (Stream<Path> files = Files.list(received)) {
            List<Path> all = files.toList();
            if (all.size() != 1) {
                throw new IOException("it has taken %d objects".formatted(all.size()));
            }
            return all.get(0);
        }
    }

    @Override
    public void close() {
        OrthancProcess.end(process);
    }
}
