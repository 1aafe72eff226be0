package vestibule.dicom.jpeg;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Measures turns of the pictures named on the command line against the peer's, each the best of some runs taken by
 * turns, and prints the ratio of wall times. Not a test: times depend on what else the machine does.
 */
final class RecoderTimes {
    private static final int RUNS = 30;

    private RecoderTimes() {}

    public static void main(String[] pictures) throws IOException, InterruptedException {
        for (String picture : pictures) {
            Path file = Path.of(picture);
            for (Turn turn : List.of(Turn.NONE, Turn.FLIP_HORIZONTAL, Turn.ROTATE_90)) {
                compare(file, turn);
            }
            print(file, "check of every code", bestOfCheck(file), bestOfPeer(file, Turn.NONE));
        }
    }

    private static void compare(Path file, Turn turn) throws IOException, InterruptedException {
        Recoding recoding = Recoding.of(turn).with(Recoding.Edge.TRIM).with(Recoding.Codes.STANDARD);
        long ours = Long.MAX_VALUE;
        long peer = Long.MAX_VALUE;
        for (int run = 0; run < RUNS; run++) {
            long start = System.nanoTime();
            Recoder.recode(file, recoding, JpegLimits.DEFAULT, OutputStream.nullOutputStream());
            ours = Math.min(ours, System.nanoTime() - start);
            if (run % 3 == 0) {
                peer = Math.min(peer, onePeer(file, turn));
            }
        }
        print(file, turn.name(), ours, peer);
    }

    private static long bestOfCheck(Path file) throws IOException {
        long best = Long.MAX_VALUE;
        for (int run = 0; run < RUNS; run++) {
            long start = System.nanoTime();
            long surplus = EntropyCheck.surplusBytes(file, JpegLimits.DEFAULT);
            best = Math.min(best, System.nanoTime() - start + Math.min(0, surplus));
        }
        return best;
    }

    private static long bestOfPeer(Path file, Turn turn) throws IOException, InterruptedException {
        long best = Long.MAX_VALUE;
        for (int run = 0; run < RUNS / 3; run++) {
            best = Math.min(best, onePeer(file, turn));
        }
        return best;
    }

    private static long onePeer(Path file, Turn turn) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add("jpegtran");
        command.addAll(PeerTools.words(turn));
        command.add("-trim");
        command.add(file.toString());
        long start = System.nanoTime();
        Process process = new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        process.waitFor();
        return System.nanoTime() - start;
    }

    private static void print(Path file, String what, long ours, long peer) {
        System.out.printf(
                Locale.ROOT,
                "%s %s: %.1f ms, peer %.1f ms, ratio %.2f%n",
                file.getFileName(),
                what,
                ours / 1e6,
                peer / 1e6,
                (double) ours / peer);
    }
}
