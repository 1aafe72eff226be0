package vestibule.conformance.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import vestibule.validator.BatchReport;
import vestibule.validator.StreamDepth;
import vestibule.validator.Validator;

/**
 * Objects a second of the validator against {@code dciodvfy}, which is started for each file, on the same objects in the same run; and the
 * time from the start of the command to its first finding. Arguments: objects, files for the peer.
 */
public final class ValidatorBench {

    private static final int FILES = 40;
    private static final int ROUNDS = 5;

    private ValidatorBench() {}

    /** The benchmark. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        int objects = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 1000;
        int forPeer = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 100;
        Path folder = Files.createTempDirectory("vestibule-bench-");
        try {
            NoisyPhotograph photograph = new NoisyPhotograph(20260303, 0.93F);
            for (int i = 0; i < FILES; i++) {
                photograph.write(folder.resolve("%03d.dcm".formatted(i)), i);
            }
            System.out.printf(
                    "%d objects of %.1f MB (%d files, each given several times), %d processors%n",
                    objects,
                    photograph.length() / 1e6,
                    FILES,
                    Runtime.getRuntime().availableProcessors());
            measure(folder, objects, forPeer);
        } finally {
            delete(folder);
        }
    }

    private static void measure(Path folder, int objects, int forPeer) throws IOException, InterruptedException {
        List<Path> paths = new ArrayList<>();
        for (int i = 0; i < objects; i++) {
            paths.add(folder.resolve("%03d.dcm".formatted(i % FILES)));
        }
        peer(paths.subList(0, Math.min(10, forPeer)));
        double peer = peer(paths.subList(0, Math.min(forPeer, objects)));
        System.out.printf("dciodvfy, one start a file   %8.1f objects/s%n", peer);
        for (StreamDepth depth : StreamDepth.values()) {
            double first = ours(paths, depth);
            double[] warm = new double[ROUNDS];
            for (int i = 0; i < ROUNDS; i++) {
                warm[i] = ours(paths, depth);
            }
            Arrays.sort(warm);
            double ours = warm[ROUNDS / 2];
            System.out.printf(
                    "validator, streams %-8s  %8.1f objects/s, ratio %.1f (median of %d; the first %d after the start: %.1f)%n",
                    depth.word(), ours, ours / peer, ROUNDS, objects, first / peer);
        }
        firstFinding(folder.resolve("000.dcm"));
    }

    private static double ours(List<Path> paths, StreamDepth depth) throws IOException {
        long began = System.nanoTime();
        BatchReport whole = Validator.standard().reading(depth).validate(paths, object -> {});
        if (whole.summary().pass() != paths.size()) {
            throw new IllegalStateException("the objects are not as they should be: " + whole.summary());
        }
        return paths.size() / seconds(began);
    }

    private static double peer(List<Path> paths) throws IOException, InterruptedException {
        long began = System.nanoTime();
        for (Path path : paths) {
            Process process = new ProcessBuilder("dciodvfy", path.toString())
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            process.waitFor();
        }
        return paths.size() / seconds(began);
    }

    /** From the start of a new machine to the first line that names a rule. */
    private static void firstFinding(Path file) throws IOException, InterruptedException {
        double best = Double.MAX_VALUE;
        for (int i = 0; i < 5; i++) {
            long began = System.nanoTime();
            Process process = new ProcessBuilder(
                            "java",
                            "-Xmx256m",
                            "-cp",
                            System.getProperty("java.class.path"),
                            "vestibule.validator.app.Main",
                            file.toString())
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try (var lines = process.inputReader()) {
                String line = lines.readLine();
                while (line != null && !line.contains("MOD-011")) {
                    line = lines.readLine();
                }
                best = Math.min(best, seconds(began));
            }
            process.waitFor();
        }
        System.out.printf("start to first finding       %8.2f s (best of 5)%n", best);
    }

    private static double seconds(long began) {
        return Duration.ofNanos(System.nanoTime() - began).toNanos() / 1e9;
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }
}
