package vestibule.conformance.bench;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** A program of DCMTK as the process it is measured in. */
final class DcmtkProgram implements AutoCloseable {

    private static final long PATIENCE_SECONDS = 120;

    private final Process process;
    private final Path log;

    private DcmtkProgram(Process process, Path log) {
        this.process = process;
        this.log = log;
    }

    private static DcmtkProgram start(Path folder, Map<String, String> environment, List<String> command)
            throws IOException {
        Path log = Files.createTempFile(folder, command.get(0), ".log");
        ProcessBuilder builder =
                new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log.toFile());
        builder.environment().putAll(environment);
        return new DcmtkProgram(builder.start(), log);
    }

    /** Runs a program to its end, which must be a good one. */
    static void run(Path folder, Map<String, String> environment, List<String> command) throws IOException {
        try (DcmtkProgram program = start(folder, environment, command)) {
            if (!program.process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS) || program.process.exitValue() != 0) {
                throw new IOException(command.get(0) + " failed: " + Files.readString(program.log));
            }
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
    }

    /** Starts a program that listens, and waits until it does. */
    static DcmtkProgram serve(Path folder, int port, Map<String, String> environment, List<String> command)
            throws IOException {
        DcmtkProgram program = start(folder, environment, command);
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        while (!listens(port)) {
            if (System.nanoTime() - end > 0 || !program.process.isAlive()) {
                program.close();
                throw new IOException(command.get(0) + " does not listen: " + Files.readString(program.log));
            }
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(20));
        }
        return program;
    }

    private static boolean listens(int port) {
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 500);
            return true;
        } catch (IOException notYet) {
            return false;
        }
    }

    static int freePort() throws IOException {
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return free.getLocalPort();
        }
    }

    /** Fails where it has ended meanwhile, for a dead receiver is quick. */
    void stillRuns() throws IOException {
        if (!process.isAlive()) {
            throw new IOException("the program ended meanwhile: " + Files.readString(log));
        }
    }

    @Override
    public void close() throws IOException {
        process.destroy();
        try {
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
    }
}
