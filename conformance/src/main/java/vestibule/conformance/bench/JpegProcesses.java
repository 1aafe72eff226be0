package vestibule.conformance.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a turn costs a process of its own: the time of one that begins with nothing, and the least heap that is enough. */
final class JpegProcesses {
    private static final int[] HEAPS = {8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 256};

    private final Path folder;
    private final int runs;

    JpegProcesses(Path folder, int runs) {
        this.folder = folder;
        this.runs = runs;
    }

    /** The lines to print. */
    List<String> all(BenchPhotographs photographs) throws IOException, InterruptedException {
        List<String> lines = new ArrayList<>();
        Path photo = photographs.make("photo-fresh", 4000, 3000, "2x1");
        lines.add(fresh(photo, "", List.of()));
        lines.add(fresh(photo, ", -XX:TieredStopAtLevel=1", List.of("-XX:TieredStopAtLevel=1")));
        Path large = photographs.make("photo-large", 6000, 4000, "2x1");
        Path progressive = folder.resolve("large-progressive.jpg");
        Peer.run(List.of("jpegtran", "-progressive", "-outfile", progressive.toString(), large.toString()));
        lines.add(heap("flip-horizontal", large));
        lines.add(heap("rotate-90", large));
        lines.add(heap("flip-horizontal", progressive));
        lines.add(heap("rotate-90", progressive));
        return lines;
    }

    /** The command {@code vestibule turn} against jpegtran, each started for one photograph. */
    private String fresh(Path photo, String name, List<String> flags) throws IOException, InterruptedException {
        double ours = Double.MAX_VALUE;
        double peer = Double.MAX_VALUE;
        for (int run = 0; run < runs; run++) {
            ours = Math.min(
                    ours, Peer.timed(turn("flip-horizontal", photo, 512, flags)).wall());
            peer = Math.min(
                    peer,
                    Peer.timed(List.of(
                                    "jpegtran",
                                    "-trim",
                                    "-flip",
                                    "horizontal",
                                    "-outfile",
                                    folder.resolve("peer.jpg").toString(),
                                    photo.toString()))
                            .wall());
        }
        return String.format(
                Locale.ROOT,
                "4:2:2 | flip-horizontal in a fresh process%s | %.0f | %.0f | %.2f | | 3.00",
                name,
                ours * 1e3,
                peer * 1e3,
                ours / peer);
    }

    private String heap(String turn, Path photo) throws IOException, InterruptedException {
        for (int megabytes : HEAPS) {
            if (enough(turn(turn, photo, megabytes, List.of()))) {
                boolean sideBySide = photo.getFileName().toString().contains("progressive");
                return "24 megapixels | %s, %s | least heap %d MB of at most 256"
                        .formatted(turn, sideBySide ? "progressive" : "baseline", megabytes);
            }
        }
        return "24 megapixels | " + turn + " | MORE than 256 MB of heap";
    }

    private static boolean enough(List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        return process.waitFor() == 0;
    }

    private List<String> turn(String by, Path photo, int megabytes, List<String> flags) throws IOException {
        Path target = folder.resolve("turned.jpg");
        Files.deleteIfExists(target);
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(flags);
        command.addAll(List.of(
                "-Xmx" + megabytes + "m",
                "-cp",
                System.getProperty("java.class.path"),
                "vestibule.bridge.app.Main",
                "turn",
                photo.toString(),
                target.toString(),
                "--by",
                by,
                "--edge",
                "trim"));
        return command;
    }
}
