package vestibule.conformance.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A batch of very many small objects through the validator's command, with every report, in 256 MB of heap: once with the sources of
 * derived pictures in the batch, once without, when each of them is worth a note. Arguments: how many objects (default 100,000), megabytes
 * of heap (default 256).
 */
public final class LargeBatch {

    private static final List<String> FORMATS = List.of("text", "json", "csv", "html", "sarif", "junit");

    private LargeBatch() {}

    /** The campaign. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        int count = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 100_000;
        int heap = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 256;
        for (boolean withSources : new boolean[] {true, false}) {
            Path folder = Files.createTempDirectory("vestibule-batch-");
            try {
                new SmallObjects().write(Files.createDirectory(folder.resolve("objects")), count, withSources);
                validate(folder, count, heap, withSources);
            } finally {
                SampleObjects.delete(folder);
            }
        }
    }

    private static void validate(Path folder, int count, int heap, boolean withSources)
            throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("java", "-Xmx" + heap + "m", "-XX:+ExitOnOutOfMemoryError"));
        command.addAll(List.of("-cp", System.getProperty("java.class.path"), "vestibule.validator.app.Main"));
        command.addAll(
                List.of("--profile", "practice", folder.resolve("objects").toString()));
        for (String format : FORMATS) {
            command.addAll(List.of("--report", format + "=" + folder.resolve("report." + format)));
        }
        long began = System.nanoTime();
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
        boolean ended = process.waitFor(1, TimeUnit.HOURS);
        double seconds = (System.nanoTime() - began) / 1e9;
        String summary = "\"summary\":{\"objects\":%d,\"pass\":%d,\"warn\":0,\"fail\":0,\"unreadable\":0}"
                .formatted(count, count);
        boolean whole = ended && process.exitValue() == 0 && endsWith(folder.resolve("report.json"), summary);
        System.out.printf(
                "batch: %d objects%s, heap %d MB, six reports: %s, %.0f objects/s%n",
                count,
                withSources ? "" : " whose sources are elsewhere",
                heap,
                whole ? "all pass" : "WRONG, exit %d: %s".formatted(process.exitValue(), said.strip()),
                count / seconds);
        if (!whole) {
            throw new IllegalStateException("the batch did not end as it should");
        }
    }

    /** Whether the summary stands in the last stretch of a report. */
    private static boolean endsWith(Path report, String summary) throws IOException {
        try (java.nio.channels.SeekableByteChannel channel = Files.newByteChannel(report)) {
            long start = Math.max(0, channel.size() - 4096);
            java.nio.ByteBuffer end = java.nio.ByteBuffer.allocate((int) (channel.size() - start));
            channel.position(start);
            int got = 0;
            while (end.hasRemaining() && got >= 0) {
                got = channel.read(end);
            }
            return new String(end.array(), java.nio.charset.StandardCharsets.UTF_8).contains(summary);
        }
    }
}
