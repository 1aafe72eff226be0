package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** A program of another toolkit, run as a process of the test; the test is skipped, saying so, where it is not installed. */
public final class Tool implements AutoCloseable {

    private static final long PATIENCE_SECONDS = 30;

    private final Process process;
    private final Path output;

    private Tool(Process process, Path output) {
        this.process = process;
        this.output = output;
    }

    /** Where a program is on the search path. */
    public static Optional<Path> find(String name) {
        return Arrays.stream(System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator, -1))
                .map(folder -> Path.of(folder, name))
                .filter(Files::isExecutable)
                .findFirst();
    }

    private static Tool start(Path folder, Map<String, String> environment, List<String> command) throws IOException {
        Optional<Path> program = find(command.get(0));
        assumeTrue(program.isPresent(), command.get(0) + " is not installed");
        Path output = Files.createTempFile(folder, command.get(0), ".log");
        List<String> words = new ArrayList<>(command);
        words.set(0, program.orElseThrow().toString());
        ProcessBuilder builder = new ProcessBuilder(words)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(output.toFile());
        builder.environment().putAll(environment);
        return new Tool(builder.start(), output);
    }

    /** Runs a program to its end. */
    public static Tool run(Path folder, String... command) throws IOException {
        return run(folder, Map.of(), command);
    }

    public static Tool run(Path folder, Map<String, String> environment, String... command) throws IOException {
        Tool tool = start(folder, environment, List.of(command));
        try {
            if (!tool.process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                tool.process.destroyForcibly();
                throw new AssertionError(command[0] + " did not end: " + tool.output());
            }
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
        return tool;
    }

    /** Starts a program that listens, and waits until it does. */
    public static Tool serve(Path folder, int port, Map<String, String> environment, String... command)
            throws IOException {
        Tool tool = start(folder, environment, List.of(command));
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        while (!tool.listens(port)) {
            if (System.nanoTime() > end || !tool.process.isAlive()) {
                tool.close();
                throw new AssertionError(command[0] + " does not listen: " + tool.output());
            }
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(20));
        }
        return tool;
    }

    private boolean listens(int port) {
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 500);
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /** A port nobody listens on. */
    public static int freePort() throws IOException {
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return free.getLocalPort();
        }
    }

    public String output() throws IOException {
        try (InputStream in = Files.newInputStream(output)) {
            return new String(in.readNBytes(100_000), StandardCharsets.ISO_8859_1);
        }
    }

    /** Fails unless it ended well. */
    public Tool succeeded() throws IOException {
        assertThat(process.exitValue()).as(output()).isZero();
        return this;
    }

    @Override
    public void close() {
        process.destroy();
        try {
            if (!process.waitFor(5, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
