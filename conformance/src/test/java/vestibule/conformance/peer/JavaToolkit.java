package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/** The toolkit in Java of Debian's libpixelmed-java, by its own programs, each as a process of its own. */
public final class JavaToolkit {

    private static final Path JARS = Path.of("/usr/share/java");
    private static final String PACKAGE = "com.pixelmed.network.";
    private static final String TITLE = "TOOLKIT";

    private JavaToolkit() {}

    /** Its receiver of objects, which answers echoes too. */
    public record Receiver(Process process, int port) implements AutoCloseable {

        public String title() {
            return TITLE;
        }

        @Override
        public void close() {
            OrthancProcess.end(process);
        }
    }

    /** Starts a receiver that stores into a folder; the test is skipped where the toolkit is absent. */
    public static Receiver receive(Path folder) throws IOException {
        int port = Deadline.freePort();
        List<String> arguments =
                command("StorageSOPClassSCPDispatcher", Integer.toString(port), TITLE, folder.toString());
        Path out = Files.createTempFile("vestibule-", ".out");
        Process process = Tool.named("java").start(arguments, out, out);
        Receiver receiver = new Receiver(process, port);
        try {
            Deadline.await(Duration.ofSeconds(60), "the toolkit listens", () -> {
                try (Socket probe = new Socket(InetAddress.getLoopbackAddress(), port)) {
                    return probe.isConnected();
                }
            });
            return receiver;
        } catch (AssertionError e) {
            receiver.close();
            throw e;
        } finally {
            Files.delete(out);
        }
    }

    /** Sends an echo. */
    public static Tool.Said echo(int port, String called) throws IOException {
        return Tool.named("java")
                .run(command(
                        "VerificationSOPClassSCU", "127.0.0.1", Integer.toString(port), called, TITLE, "NONSECURE"));
    }

    /** Sends an object. */
    public static Tool.Said store(int port, String called, Path file) throws IOException {
        return Tool.named("java")
                .run(command(
                        "StorageSOPClassSCU",
                        "127.0.0.1",
                        Integer.toString(port),
                        called,
                        TITLE,
                        file.toString(),
                        "0"));
    }

    private static List<String> command(String program, String... arguments) {
        Assumptions.assumeTrue(Files.exists(JARS.resolve("pixelmed.jar")), "libpixelmed-java is not on this machine");
        String classPath = Stream.of("pixelmed", "slf4j-api", "commons-codec", "commons-net", "jmdns")
                .map(jar -> JARS.resolve(jar + ".jar").toString())
                .collect(Collectors.joining(":"));
        List<String> words = new ArrayList<>(List.of("-cp", classPath, PACKAGE + program));
        words.addAll(List.of(arguments));
        return words;
    }
}
