package vestibule.conformance.job;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.HalfSize;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/**
 * A program of its own, to be started with little heap: has each JPEG it is given turned, checked as a whole, and looked at as intake does,
 * and says in a line what came of each, after how many milliseconds, and how many kilobytes were allocated on the way.
 */
final class BombReader {

    /** Up to this size intake looks at a picture at half its size; larger ones it only checks. */
    private static final long MOST_LOOKED_AT = 30_000_000;

    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    private enum Work {
        TURN {
            @Override
            void on(Path file) throws IOException {
                Recoder.recode(
                        file,
                        Recoding.of(Turn.FLIP_HORIZONTAL).with(Recoding.Edge.TRIM),
                        JpegLimits.DEFAULT,
                        OutputStream.nullOutputStream());
            }
        },
        CHECK {
            @Override
            void on(Path file) throws IOException {
                EntropyCheck.surplusBytes(file, JpegLimits.DEFAULT);
            }
        },
        LOOK {
            @Override
            void on(Path file) throws IOException {
                try (SeekableByteChannel channel = Files.newByteChannel(file)) {
                    Jpeg jpeg = Jpeg.read(channel, JpegLimits.DEFAULT);
                    if (jpeg.frame().pixels() <= MOST_LOOKED_AT) {
                        HalfSize.read(channel, jpeg);
                    } else {
                        EntropyCheck.surplusBytes(channel, jpeg);
                    }
                }
            }
        };

        abstract void on(Path file) throws IOException;
    }

    private BombReader() {}

    public static void main(String[] files) throws IOException {
        for (String file : files) {
            for (Work work : Work.values()) {
                tell(work, Path.of(file));
            }
        }
    }

    private static void tell(Work work, Path file) throws IOException {
        long start = System.nanoTime();
        long before = allocated();
        String outcome;
        try {
            work.on(file);
            outcome = "done";
        } catch (JpegFormatException refused) {
            outcome = "refused";
        }
        System.out.printf(
                Locale.ROOT,
                "%s %d kB %d ms %s %s%n",
                outcome,
                (allocated() - before) / 1024,
                (System.nanoTime() - start) / 1_000_000,
                work,
                file.getFileName());
    }

    private static long allocated() {
        return THREADS.getThreadAllocatedBytes(Thread.currentThread().getId());
    }
}
