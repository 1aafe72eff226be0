package vestibule.conformance.bench;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Programs to measure against, started as a person would. */
final class Peer {
    private Peer() {}

    /** What a run took: by the clock, and by the processor for the program itself (user and system), in seconds. */
    record Took(double wall, double processor) {}

    static void run(List<String> command) throws IOException, InterruptedException {
        timed(command);
    }

    /** Runs a program under the shell's own stopwatch. */
    static Took timed(List<String> command) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(List.of("bash", "-c", "TIMEFORMAT='%3R %3U %3S'; time \"$@\"", "bash"));
        words.addAll(command);
        ProcessBuilder builder = new ProcessBuilder(words).redirectOutput(ProcessBuilder.Redirect.DISCARD);
        builder.environment().put("LC_ALL", "C");
        Process process = builder.start();
        String said = new String(process.getErrorStream().readAllBytes(), StandardCharsets.UTF_8).strip();
        if (process.waitFor() != 0) {
            throw new IOException(command.get(0) + " failed: " + said);
        }
        String[] seconds = said.substring(said.lastIndexOf('\n') + 1).split(" ", -1);
        return new Took(
                Double.parseDouble(seconds[0]), Double.parseDouble(seconds[1]) + Double.parseDouble(seconds[2]));
    }
}
