package vestibule.conformance.bench;

import java.io.IOException;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/**
 * Turns, coding again and checking of 12-megapixel photographs against libjpeg-turbo's jpegtran, warm, both writing to a
 * file. By turns, so that both meet the same machine; the least of all runs counts.
 */
public final class JpegBench {
    private static final int WARM_UP = 12;

    private final Path folder;
    private final int runs;
    private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();

    private JpegBench(Path folder, int runs) {
        this.folder = folder;
        this.runs = runs;
    }

    private interface Work {
        void run() throws IOException;
    }

    /** Arguments: number of runs (default 15). */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        Path folder = Files.createTempDirectory("vestibule-bench");
        int runs = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 15;
        try {
            new JpegBench(folder, runs).all();
        } finally {
            try (var files = Files.list(folder)) {
                for (Path file : files.toList()) {
                    Files.delete(file);
                }
            }
            Files.delete(folder);
        }
    }

    private void all() throws IOException, InterruptedException {
        System.out.println("photograph | work | ours ms | peer ms | ratio | ratio by processor time | at most");
        BenchPhotographs photographs = new BenchPhotographs(folder);
        for (String[] one : new String[][] {{"4:2:2", "2x1"}, {"4:2:0", "2x2"}}) {
            Path photo = photographs.make("photo-" + one[1], 4000, 3000, one[1]);
            Path progressive = folder.resolve("progressive-" + one[1] + ".jpg");
            Peer.run(List.of("jpegtran", "-progressive", "-outfile", progressive.toString(), photo.toString()));
            turn(one[0], photo, Turn.FLIP_HORIZONTAL, 0.45, "-flip", "horizontal");
            turn(one[0], photo, Turn.FLIP_VERTICAL, 0.45, "-flip", "vertical");
            turn(one[0], photo, Turn.ROTATE_90, 0.60, "-rotate", "90");
            recode(one[0] + " progressive", progressive);
            check(one[0], photo, 0.30);
            header(one[0], photo);
            metadata(one[0], photo);
            pair(one[0], photo);
        }
        new JpegProcesses(folder, runs).all(photographs).forEach(System.out::println);
    }

    private void turn(String name, Path photo, Turn turn, double most, String... words)
            throws IOException, InterruptedException {
        Path target = folder.resolve("ours.jpg");
        Recoding recoding = Recoding.of(turn).with(Recoding.Edge.TRIM).with(Recoding.Codes.STANDARD);
        Work ours = () -> recode(photo, recoding, target);
        List<String> peer = new ArrayList<>(List.of("jpegtran", "-trim"));
        peer.addAll(List.of(words));
        compare(name, turn.name().toLowerCase(Locale.ROOT).replace('_', '-'), ours, peer, photo, most);
        sameBytes(target, folder.resolve("peer.jpg"));
    }

    private void recode(String name, Path photo) throws IOException, InterruptedException {
        Path target = folder.resolve("ours.jpg");
        Recoding recoding = Recoding.of(Turn.NONE);
        compare(name, "to baseline", () -> recode(photo, recoding, target), List.of("jpegtran"), photo, 0.50);
        Recoding best = Recoding.of(Turn.NONE).with(Recoding.Codes.STANDARD);
        compare(
                name,
                "to baseline, standard tables",
                () -> recode(photo, best, target),
                List.of("jpegtran"),
                photo,
                0.50);
        sameBytes(target, folder.resolve("peer.jpg"));
    }

    private void check(String name, Path photo, double most) throws IOException, InterruptedException {
        Work ours = () -> EntropyCheck.surplusBytes(photo, JpegLimits.DEFAULT);
        compare(name, "check of every code", ours, List.of("jpegtran"), photo, most);
    }

    private void header(String name, Path photo) throws IOException {
        double best = Double.MAX_VALUE;
        for (int run = 0; run < WARM_UP + runs; run++) {
            long start = System.nanoTime();
            Jpeg.read(photo, JpegLimits.DEFAULT);
            best = Math.min(best, (System.nanoTime() - start) / 1e6);
        }
        System.out.printf(Locale.ROOT, "%s | walk of all segments | %.2f | | | | 3 ms%n", name, best);
    }

    /** All that is known of a photograph before its picture is touched, less the hash of its bytes. */
    private void metadata(String name, Path photo) throws IOException, InterruptedException {
        Path noted = Files.copy(photo, folder.resolve("noted-" + photo.getFileName()));
        Peer.run(List.of(
                "exiftool",
                "-q",
                "-overwrite_original",
                "-Make=OKULAR",
                "-Model=M 100",
                "-Orientation#=6",
                "-DateTimeOriginal=2026:03:06 10:16:12",
                "-ExposureTime=1/160",
                "-FNumber=22",
                "-ISO=200",
                "-FocalLength=105",
                noted.toString()));
        double all = Double.MAX_VALUE;
        double hash = Double.MAX_VALUE;
        try {
            for (int run = 0; run < WARM_UP + runs; run++) {
                long start = System.nanoTime();
                Photo.read(noted);
                all = Math.min(all, (System.nanoTime() - start) / 1e6);
                start = System.nanoTime();
                MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(noted));
                hash = Math.min(hash, (System.nanoTime() - start) / 1e6);
            }
        } catch (PhotoException | NoSuchAlgorithmException e) {
            throw new IOException("the photograph made for this cannot be read", e);
        }
        System.out.printf(
                Locale.ROOT,
                "%s | frame header and metadata | %.2f | (and the hash of all bytes %.1f) | | | 3 ms%n",
                name,
                all - hash,
                hash);
    }

    /** Two photographs on two threads: the time of both, halved. */
    private void pair(String name, Path photo) throws IOException, InterruptedException {
        Recoding recoding = Recoding.of(Turn.FLIP_HORIZONTAL);
        double best = Double.MAX_VALUE;
        for (int run = 0; run < runs; run++) {
            long start = System.nanoTime();
            Thread[] both = new Thread[2];
            for (int number = 0; number < 2; number++) {
                Path target = folder.resolve("pair-" + number + ".jpg");
                both[number] = new Thread(() -> {
                    try {
                        recode(photo, recoding, target);
                    } catch (IOException e) {
                        throw new java.io.UncheckedIOException(e);
                    }
                });
                both[number].start();
            }
            both[0].join();
            both[1].join();
            best = Math.min(best, (System.nanoTime() - start) / 2e9);
        }
        List<String> peer = List.of("jpegtran", "-trim", "-flip", "horizontal");
        double theirs = Double.MAX_VALUE;
        for (int run = 0; run < runs; run++) {
            theirs = Math.min(theirs, peer(peer, photo).wall());
        }
        print(name, "flip-horizontal, two threads, each", best, theirs, Double.NaN, 0.25);
    }

    private static void recode(Path photo, Recoding recoding, Path target) throws IOException {
        try (OutputStream out = Files.newOutputStream(target)) {
            Recoder.recode(photo, recoding, JpegLimits.DEFAULT, out);
        }
    }

    private void compare(String name, String work, Work ours, List<String> peer, Path photo, double most)
            throws IOException, InterruptedException {
        for (int run = 0; run < WARM_UP; run++) {
            ours.run();
        }
        double wall = Double.MAX_VALUE;
        double processor = Double.MAX_VALUE;
        double peerWall = Double.MAX_VALUE;
        double peerProcessor = Double.MAX_VALUE;
        for (int run = 0; run < runs; run++) {
            long start = System.nanoTime();
            long startProcessor = threads.getCurrentThreadCpuTime();
            ours.run();
            processor = Math.min(processor, (threads.getCurrentThreadCpuTime() - startProcessor) / 1e9);
            wall = Math.min(wall, (System.nanoTime() - start) / 1e9);
            Peer.Took took = peer(peer, photo);
            peerWall = Math.min(peerWall, took.wall());
            peerProcessor = Math.min(peerProcessor, took.processor());
        }
        print(name, work, wall, peerWall, processor / peerProcessor, most);
    }

    private Peer.Took peer(List<String> words, Path photo) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(words);
        command.addAll(List.of("-outfile", folder.resolve("peer.jpg").toString(), photo.toString()));
        return Peer.timed(command);
    }

    /** The peer adds a JFIF segment of its own; from the first quantization table on all must be alike. */
    private static void sameBytes(Path ours, Path peer) throws IOException {
        byte[] one = Files.readAllBytes(ours);
        byte[] other = Files.readAllBytes(peer);
        int from = firstTable(one);
        int otherFrom = firstTable(other);
        boolean same = java.util.Arrays.equals(one, from, one.length, other, otherFrom, other.length);
        System.out.println(same ? "  byte for byte the peer's" : "  NOT the peer's bytes");
    }

    private static int firstTable(byte[] stream) {
        int at = 2;
        while ((stream[at + 1] & 0xFF) != 0xDB) {
            at += 2 + ((stream[at + 2] & 0xFF) << 8 | (stream[at + 3] & 0xFF));
        }
        return at;
    }

    private static void print(String name, String work, double ours, double peer, double processor, double most) {
        System.out.printf(
                Locale.ROOT,
                "%s | %s | %.1f | %.1f | %.2f | %.2f | %.2f%n",
                name,
                work,
                ours * 1e3,
                peer * 1e3,
                ours / peer,
                processor,
                most);
    }
}
