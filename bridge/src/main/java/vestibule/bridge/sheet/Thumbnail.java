package vestibule.bridge.sheet;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import vestibule.dicom.jpeg.Turn;

/**
 * A small picture for the page, turned as the object will be. It is made anew from the samples, so nothing of the camera's notes gets into
 * it; it is for looking at, never for filing.
 */
public final class Thumbnail {

    private static final int LONGEST_EDGE = 420;
    private static final long MOST_PIXELS = 1L << 28;

    private Thumbnail() {}

    /** The picture of a JPEG file, turned so; empty where the Java runtime cannot show it. */
    public static Optional<byte[]> of(Path jpeg, Turn turn) throws IOException {
        return of(Files.readAllBytes(jpeg), turn);
    }

    /** The picture of a JPEG stream, turned so; empty where the Java runtime cannot show it. */
    public static Optional<byte[]> of(byte[] jpeg, Turn turn) throws IOException {
        Optional<BufferedImage> read = read(jpeg);
        return read.isPresent() ? Optional.of(written(scaled(turned(read.get(), turn)))) : Optional.empty();
    }

    /** A library reads foreign bytes here: whatever it throws means no more than that there is no picture to show. */
    private static Optional<BufferedImage> read(byte[] jpeg) throws IOException {
        Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("jpeg");
        if (!readers.hasNext()) {
            return Optional.empty();
        }
        ImageReader reader = readers.next();
        try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(jpeg))) {
            reader.setInput(in, true, true);
            int width = reader.getWidth(0);
            int height = reader.getHeight(0);
            if ((long) width * height > MOST_PIXELS) {
                return Optional.empty();
            }
            ImageReadParam parameters = reader.getDefaultReadParam();
            int step = Math.max(1, Math.max(width, height) / (2 * LONGEST_EDGE));
            parameters.setSourceSubsampling(step, step, 0, 0);
            return Optional.of(reader.read(0, parameters));
        } catch (RuntimeException | javax.imageio.IIOException notToBeShown) {
            return Optional.empty();
        } finally {
            reader.dispose();
        }
    }

    private static BufferedImage turned(BufferedImage image, Turn turn) {
        int width = image.getWidth();
        int height = image.getHeight();
        BufferedImage turned = turn.exchangesAxes()
                ? new BufferedImage(height, width, BufferedImage.TYPE_INT_RGB)
                : new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = turned.createGraphics();
        graphics.drawImage(image, transform(turn, width, height), null);
        graphics.dispose();
        return turned;
    }

    /** Where the pixels of a picture of that size go. */
    private static AffineTransform transform(Turn turn, int width, int height) {
        return switch (turn) {
            case NONE -> new AffineTransform();
            case FLIP_HORIZONTAL -> new AffineTransform(-1, 0, 0, 1, width, 0);
            case FLIP_VERTICAL -> new AffineTransform(1, 0, 0, -1, 0, height);
            case ROTATE_180 -> new AffineTransform(-1, 0, 0, -1, width, height);
            case ROTATE_90 -> new AffineTransform(0, 1, -1, 0, height, 0);
            case ROTATE_270 -> new AffineTransform(0, -1, 1, 0, 0, width);
            case TRANSPOSE -> new AffineTransform(0, 1, 1, 0, 0, 0);
            case TRANSVERSE -> new AffineTransform(0, -1, -1, 0, height, width);
        };
    }

    private static BufferedImage scaled(BufferedImage image) {
        double factor = Math.min(1, (double) LONGEST_EDGE / Math.max(image.getWidth(), image.getHeight()));
        int width = (int) Math.max(1, Math.round(image.getWidth() * factor));
        int height = (int) Math.max(1, Math.round(image.getHeight() * factor));
        BufferedImage scaled = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = scaled.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        graphics.drawImage(image, 0, 0, width, height, null);
        graphics.dispose();
        return scaled;
    }

    private static byte[] written(BufferedImage image) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        if (!ImageIO.write(image, "jpeg", out)) {
            throw new IOException("the Java runtime writes no JPEG");
        }
        return out.toByteArray();
    }
}
