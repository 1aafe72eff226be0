package vestibule.conformance.fault;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import javax.imageio.ImageIO;

/** Photographs by the thousand: small JPEG files, no two alike, of nothing at all. */
public final class Photographs {

    private Photographs() {}

    /**
     * One file; the same seed gives the same bytes on one machine.
     *
     * @param edge of the picture, in pixels; 32 gives about 1 kB, 256 about 50 kB
     */
    public static byte[] jpeg(long seed, int edge) throws IOException {
        Random random = new Random(seed);
        BufferedImage image = new BufferedImage(edge, edge, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < edge; y++) {
            for (int x = 0; x < edge; x++) {
                image.setRGB(x, y, random.nextInt(1 << 24));
            }
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        if (!ImageIO.write(image, "jpg", bytes)) {
            throw new IOException("the Java runtime has no writer of JPEG files");
        }
        return bytes.toByteArray();
    }

    /**
     * Fills a folder as a camera does, a hundred files a folder.
     *
     * @return the folder
     */
    public static Path card(Path folder, int count, long seed, int edge) throws IOException {
        for (int i = 0; i < count; i++) {
            Path images = folder.resolve("%dOKULR".formatted(100 + i / 100));
            Files.createDirectories(images);
            Files.write(images.resolve(String.format(Locale.ROOT, "IMG_%04d.JPG", i % 100 + 1)), jpeg(seed + i, edge));
        }
        return folder;
    }
}
