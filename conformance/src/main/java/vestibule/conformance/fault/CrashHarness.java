package vestibule.conformance.fault;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Starts the program in a process of its own, watches what it says, and kills it without warning (SIGKILL) when it is time. */
public final class CrashHarness {

    private static final Logger LOG = LoggerFactory.getLogger(CrashHarness.class);

    private final List<String> program;
    private final Map<String, String> environment;

    /**
     * @param program the words that start it, such as {@code java -jar vestibule.jar}
     * @param environment added to ours
     */
    public CrashHarness(List<String> program, Map<String, String> environment) {
        this.program = List.copyOf(program);
        this.environment = Map.copyOf(environment);
    }

    /** A program in a jar, run by the Java runtime that runs this one. */
    public static CrashHarness ofJar(Path jar) {
        return new CrashHarness(
                List.of(java(), "-Xmx192m", "-XX:TieredStopAtLevel=1", "-jar", jar.toString()), Map.of());
    }

    /** A program on this program's own class path; it logs as the program does, whatever tests have set there. */
    public static CrashHarness ofClass(String mainClass) {
        return new CrashHarness(
                List.of(
                        java(),
                        "-Xmx192m",
                        "-XX:TieredStopAtLevel=1",
                        "-Dlogback.configurationFile=logback.xml",
                        "-cp",
                        System.getProperty("java.class.path", ""),
                        mainClass),
                Map.of());
    }

    private static String java() {
        return Path.of(System.getProperty("java.home", ""), "bin", "java").toString();
    }

    /** Starts it with those words. */
    public Run start(List<String> words) throws IOException {
        List<String> command = new ArrayList<>(program);
        command.addAll(words);
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().putAll(environment);
        return new Run(builder.start());
    }

    /** A program that runs. */
    public static final class Run implements AutoCloseable {

        private static final Duration PATIENCE = Duration.ofSeconds(60);

        private final Process process;
        private final List<String> lines = new ArrayList<>();
        private final Thread reading;
        private final CountDownLatch ended = new CountDownLatch(1);
        private Optional<Predicate<String>> deadly = Optional.empty();

        private Run(Process process) {
            this.process = process;
            this.reading = new Thread(this::read, "crash-harness");
            reading.setDaemon(true);
            reading.start();
        }

        private void read() {
            try (BufferedReader out = process.inputReader(StandardCharsets.UTF_8)) {
                String line = out.readLine();
                while (line != null) {
                    take(line);
                    line = out.readLine();
                }
            } catch (IOException e) {
                LOG.debug("the output of a killed program ended: {}", e.getMessage());
            } finally {
                ended.countDown();
                synchronized (lines) {
                    lines.notifyAll();
                }
            }
        }

        private void take(String line) {
            synchronized (lines) {
                lines.add(line);
                if (deadly.isPresent() && deadly.get().test(line)) {
                    process.destroyForcibly();
                }
                lines.notifyAll();
            }
        }

        /** What it has said so far. */
        public List<String> lines() {
            synchronized (lines) {
                return List.copyOf(lines);
            }
        }

        /** Kills it as soon as it says such a line. */
        public void killOn(Predicate<String> line) {
            synchronized (lines) {
                deadly = Optional.of(line);
                if (lines.stream().anyMatch(line)) {
                    process.destroyForcibly();
                }
            }
        }

        /**
         * Waits for a line.
         *
         * @return whether it came; if not, the time is over or the program has ended
         */
        public boolean await(Predicate<String> line, Duration atMost) throws InterruptedException {
            long end = System.nanoTime() + atMost.toNanos();
            synchronized (lines) {
                while (lines.stream().noneMatch(line)) {
                    long left = TimeUnit.NANOSECONDS.toMillis(end - System.nanoTime());
                    if (left <= 0 || ended.getCount() == 0) {
                        return false;
                    }
                    lines.wait(left);
                }
                return true;
            }
        }

        /**
         * Lets it run for a while, then kills it.
         *
         * @return whether it was still running
         */
        public boolean killAfter(Duration delay) throws InterruptedException {
            boolean over = process.waitFor(delay.toNanos(), TimeUnit.NANOSECONDS);
            kill();
            return !over;
        }

        /** Kills it now, and waits until it is dead. */
        public void kill() throws InterruptedException {
            process.destroyForcibly();
            awaitExit(PATIENCE);
        }

        /** Asks it to end (SIGTERM); what it says while it ends is still heard, which the process's own method would prevent. */
        public boolean askToEnd() {
            return process.toHandle().destroy();
        }

        /** Waits for its end; the exit code, or nothing if it goes on. */
        public Optional<Integer> awaitExit(Duration atMost) throws InterruptedException {
            if (!process.waitFor(atMost.toNanos(), TimeUnit.NANOSECONDS)) {
                return Optional.empty();
            }
            reading.join(PATIENCE.toMillis());
            return Optional.of(process.exitValue());
        }

        /** Whether it runs. */
        public boolean isAlive() {
            return process.isAlive();
        }

        /** Its number among the machine's processes. */
        public long pid() {
            return process.pid();
        }

        /** Kills it if it still runs. */
        @Override
        public void close() {
            process.destroyForcibly();
            try {
                awaitExit(PATIENCE);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}
