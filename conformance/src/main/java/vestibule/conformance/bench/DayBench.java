package vestibule.conformance.bench;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import vestibule.bridge.patient.CardReader;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePhoto;
import vestibule.samples.Samples;

/**
 * Looks for patient cards in the photographs of an ordinary day: 320 frames of twelve megapixels, two side by side. Nearly all the time of
 * deciding a source goes there. The peer is libjpeg-turbo's djpeg, which decodes the same frames and looks for nothing.
 */
public final class DayBench {

    private static final int FRAMES = 320;
    private static final int SIDE_BY_SIDE = 2;

    private DayBench() {}

    /** What is done with one frame. */
    private interface Work {
        void on(Path frame) throws IOException, InterruptedException;
    }

    /**
     * Measures and prints.
     *
     * @param arguments how many frames; 320 unless said
     */
    public static void main(String[] arguments) throws IOException, InterruptedException, ExecutionException {
        int count = arguments.length == 0 ? FRAMES : Integer.parseInt(arguments[0]);
        Path folder = Files.createTempDirectory("vestibule-day-");
        List<Path> drawn = new ArrayList<>();
        for (SamplePhoto photo : Samples.photos().subList(0, 4)) {
            drawn.add(
                    Files.write(folder.resolve(photo.id() + ".jpg"), Samples.jpeg(photo, PhotoSize.TWELVE_MEGAPIXELS)));
        }
        PrintStream out = System.out;
        CardReader reader = new CardReader();
        double ours = seconds(drawn, count, reader::read);
        double peer = seconds(drawn, count, DayBench::decode);
        out.printf(Locale.ROOT, "%d frames looked at for cards in %.1f s%n", count, ours);
        out.printf(Locale.ROOT, "%d frames decoded by djpeg in %.1f s; ratio %.2f%n", count, peer, ours / peer);
        for (Path photo : drawn) {
            Files.delete(photo);
        }
        Files.delete(folder);
    }

    private static void decode(Path frame) throws IOException, InterruptedException {
        Process process = new ProcessBuilder("djpeg", "-outfile", "/dev/null", frame.toString()).start();
        if (process.waitFor() != 0) {
            throw new IOException("djpeg does not decode " + frame);
        }
    }

    private static double seconds(List<Path> frames, int count, Work work)
            throws InterruptedException, ExecutionException {
        ExecutorService workers = Executors.newFixedThreadPool(SIDE_BY_SIDE);
        long start = System.nanoTime();
        List<Future<?>> done = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Path frame = frames.get(i % frames.size());
            done.add(workers.submit(() -> {
                work.on(frame);
                return frame;
            }));
        }
        for (Future<?> one : done) {
            one.get();
        }
        workers.shutdown();
        return (System.nanoTime() - start) / 1e9;
    }
}
