package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import vestibule.samples.certificate.Authority;

/** OpenSSL's server, which can be told to speak only what nobody should speak any more. */
public final class OpensslServer implements AutoCloseable {

    private final Process process;
    private final int port;

    private OpensslServer(Process process, int port) {
        this.process = process;
        this.port = port;
    }

    /**
     * Starts one; the test is skipped where the program is absent.
     *
     * @param more what it is told beside its certificate, as {@code -tls1_1}
     */
    public static OpensslServer start(Path folder, Authority.Pair own, List<String> more) throws IOException {
        Tool openssl = Tool.named("openssl");
        int port = Deadline.freePort();
        List<String> arguments = new ArrayList<>(List.of(
                "s_server",
                "-accept",
                "127.0.0.1:" + port,
                "-cert",
                own.certificate().toString(),
                "-key",
                own.key().toString()));
        arguments.addAll(more);
        Process process = openssl.start(arguments, folder.resolve("openssl.out"), folder.resolve("openssl.err"));
        Deadline.await(Duration.ofSeconds(20), "openssl s_server listens", () -> {
            try (Socket probe = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return probe.isConnected();
            }
        });
        return new OpensslServer(process, port);
    }

    public int port() {
        return port;
    }

    @Override
    public void close() {
        OrthancProcess.end(process);
    }
}
