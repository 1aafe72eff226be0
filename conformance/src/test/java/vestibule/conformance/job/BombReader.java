package vestibule.conformance.job;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.Locale;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/** A program of its own, to be started with little heap: turns each JPEG it is given, and says in a line what came of it. */
final class BombReader {

    private BombReader() {}

    public static void main(String[] files) throws IOException {
        for (String file : files) {
            long start = System.nanoTime();
            String outcome;
            try {
                Recoder.recode(
                        Path.of(file),
                        Recoding.of(Turn.FLIP_HORIZONTAL).with(Recoding.Edge.TRIM),
                        JpegLimits.DEFAULT,
                        OutputStream.nullOutputStream());
                outcome = "turned";
            } catch (JpegFormatException refused) {
                outcome = "refused";
            }
            System.out.printf(
                    Locale.ROOT,
                    "%s %d ms %s%n",
                    outcome,
                    (System.nanoTime() - start) / 1_000_000,
                    Path.of(file).getFileName());
        }
    }
}
