package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/** A command of this machine. */
public record Tool(Path program) {

    private static final Duration PATIENCE = Duration.ofMinutes(2);

    /**
     * What a command said.
     *
     * @param exit its exit code
     * @param out its standard output
     * @param err its standard error
     */
    public record Said(int exit, String out, String err) {
        /** Both streams. */
        public String all() {
            return out + err;
        }
    }

    /** The command of that name, on the path or where system programs are; the test is skipped where it is absent. */
    public static Tool named(String name) {
        Optional<Tool> tool = find(name);
        Assumptions.assumeTrue(tool.isPresent(), () -> "the program " + name + " is not on this machine");
        return tool.orElseThrow();
    }

    /** The command of that name, if it is here. */
    public static Optional<Tool> find(String name) {
        String folders = System.getenv().getOrDefault("PATH", "") + ":/usr/sbin:/usr/bin";
        return Stream.of(folders.split(":"))
                .map(folder -> Path.of(folder, name))
                .filter(Files::isExecutable)
                .map(Tool::new)
                .findFirst();
    }

    /** Runs to the end; output goes through files, so that no pipe can fill up. */
    public Said run(List<String> arguments) throws IOException {
        Path out = Files.createTempFile("vestibule-", ".out");
        Path err = Files.createTempFile("vestibule-", ".err");
        try {
            Process process = start(arguments, out, err);
            if (!process.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new AssertionError(program + " has not ended after " + PATIENCE.toSeconds() + " s");
            }
            return new Said(process.exitValue(), text(out), text(err));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while " + program + " was running", e);
        } finally {
            Files.delete(out);
            Files.delete(err);
        }
    }

    /** Runs to the end. */
    public Said run(String... arguments) throws IOException {
        return run(List.of(arguments));
    }

    /** Starts a program that goes on until it is stopped. */
    Process start(List<String> arguments, Path out, Path err) throws IOException {
        List<String> command = new ArrayList<>();
        command.add(program.toString());
        command.addAll(arguments);
        ProcessBuilder builder =
                new ProcessBuilder(command).redirectOutput(out.toFile()).redirectError(err.toFile());
        builder.environment().put("TZ", "UTC");
        builder.environment().put("LC_ALL", "C.UTF-8");
        return builder.start();
    }

    private static String text(Path file) throws IOException {
        return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    }
}
