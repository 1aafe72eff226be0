package vestibule.bridge.patient;

import com.google.zxing.LuminanceSource;
import com.google.zxing.PlanarYUVLuminanceSource;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;

/** The brightness of a picture, eight bits a pixel, line by line. */
final class Luminance {

    /** Larger pictures are thinned out while they are decoded, so that no header makes us allocate what it likes. */
    private static final int LONGEST_EDGE = 4_500;

    private static final int LARGEST_EDGE = 65_535;

    private final int width;
    private final int height;
    private final byte[] pixels;

    /** The array is not copied: a picture is tens of megabytes, and nobody here writes to it. */
    Luminance(int width, int height, byte[] pixels) {
        this.width = width;
        this.height = height;
        this.pixels = pixels;
    }

    LuminanceSource source() {
        return new PlanarYUVLuminanceSource(pixels, width, height, 0, 0, width, height, false);
    }

    /**
     * The brightness of a JPEG; empty if it cannot be decoded here, as for four inks. One at a time: with all its components a picture
     * takes tens of megabytes until its brightness is picked out.
     */
    static synchronized Optional<Luminance> read(Path file) throws IOException {
        try (ImageInputStream in = ImageIO.createImageInputStream(file.toFile())) {
            if (in == null) {
                throw new IOException(file + " cannot be opened");
            }
            Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("jpeg");
            ImageReader reader = readers.next();
            try {
                reader.setInput(in, true, true);
                return Optional.of(read(reader));
            } finally {
                reader.dispose();
            }
        } catch (javax.imageio.IIOException | RuntimeException undecodable) {
            return Optional.empty();
        }
    }

    /** The raw components are enough: the first of YCbCr is brightness, and of RGB the red one tells black from white too. */
    private static Luminance read(ImageReader reader) throws IOException {
        int longest = Math.max(reader.getWidth(0), reader.getHeight(0));
        if (longest > LARGEST_EDGE) {
            throw new javax.imageio.IIOException("no JPEG is that large");
        }
        ImageReadParam how = reader.getDefaultReadParam();
        int step = (longest + LONGEST_EDGE - 1) / LONGEST_EDGE;
        how.setSourceSubsampling(step, step, 0, 0);
        how.setSourceBands(null);
        Raster raster = reader.readRaster(0, how);
        int width = raster.getWidth();
        int height = raster.getHeight();
        byte[] pixels = new byte[width * height];
        byte[] line = new byte[width * raster.getNumBands()];
        for (int y = 0; y < height; y++) {
            raster.getDataElements(0, y, width, 1, line);
            for (int x = 0, at = 0; x < width; x++, at += raster.getNumBands()) {
                pixels[y * width + x] = line[at];
            }
        }
        return new Luminance(width, height, pixels);
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    /** How bright a pixel is, 0 to 255. */
    int at(int x, int y) {
        return pixels[y * width + x] & 0xFF;
    }

    /** Half as wide and half as high, each pixel the mean of four. */
    Luminance halved() {
        int columns = Math.max(1, width / 2);
        int rows = Math.max(1, height / 2);
        byte[] out = new byte[columns * rows];
        for (int y = 0; y < rows; y++) {
            int upper = 2 * y * width;
            int lower = Math.min(2 * y + 1, height - 1) * width;
            for (int x = 0; x < columns; x++) {
                int left = 2 * x;
                int right = Math.min(left + 1, width - 1);
                int sum = (pixels[upper + left] & 0xFF)
                        + (pixels[upper + right] & 0xFF)
                        + (pixels[lower + left] & 0xFF)
                        + (pixels[lower + right] & 0xFF);
                out[y * columns + x] = (byte) (sum / 4);
            }
        }
        return new Luminance(columns, rows, out);
    }

    /** With a white border around it, which a code needs to stand out. */
    Luminance bordered(int border) {
        int wide = width + 2 * border;
        byte[] out = new byte[wide * (height + 2 * border)];
        Arrays.fill(out, (byte) 255);
        for (int y = 0; y < height; y++) {
            System.arraycopy(pixels, y * width, out, (y + border) * wide + border, width);
        }
        return new Luminance(wide, height + 2 * border, out);
    }

    /** A copy in which what lies within these corners, of a figure without dents, is as white as paper. */
    Luminance without(double[] xs, double[] ys) {
        byte[] out = pixels.clone();
        int top = (int) Math.max(0, Arrays.stream(ys).min().orElseThrow());
        int bottom = (int) Math.min(height - 1, Arrays.stream(ys).max().orElseThrow());
        for (int y = top; y <= bottom; y++) {
            double left = width;
            double right = -1;
            for (int i = 0; i < xs.length; i++) {
                int next = (i + 1) % xs.length;
                if ((ys[i] <= y) != (ys[next] <= y)) {
                    double x = xs[i] + (y - ys[i]) / (ys[next] - ys[i]) * (xs[next] - xs[i]);
                    left = Math.min(left, x);
                    right = Math.max(right, x);
                }
            }
            int from = (int) Math.max(0, left);
            int to = (int) Math.min(width - 1, right);
            if (from <= to) {
                Arrays.fill(out, y * width + from, y * width + to + 1, (byte) 255);
            }
        }
        return new Luminance(width, height, out);
    }

    int longestEdge() {
        return Math.max(width, height);
    }

    /** Made smaller by averaging, with a white border around it, which a code needs to stand out. */
    Luminance scaled(int longest, int border) {
        double factor = Math.min(1, (double) longest / longestEdge());
        int columns = Math.max(1, (int) (width * factor));
        int rows = Math.max(1, (int) (height * factor));
        int wide = columns + 2 * border;
        byte[] out = new byte[wide * (rows + 2 * border)];
        Arrays.fill(out, (byte) 255);
        int[] starts = starts(width, columns);
        int[] sums = new int[columns];
        int bottom = 0;
        for (int y = 0; y < rows; y++) {
            int top = bottom;
            bottom = (int) ((long) (y + 1) * height / rows);
            Arrays.fill(sums, 0);
            for (int line = top; line < bottom; line++) {
                addLine(line * width, starts, sums);
            }
            int target = (y + border) * wide + border;
            for (int x = 0; x < columns; x++) {
                out[target + x] = (byte) (sums[x] / ((starts[x + 1] - starts[x]) * (bottom - top)));
            }
        }
        return new Luminance(wide, rows + 2 * border, out);
    }

    /** Where each column of the smaller picture begins in the larger one, and where the last one ends. */
    private static int[] starts(int width, int columns) {
        int[] starts = new int[columns + 1];
        for (int x = 0; x <= columns; x++) {
            starts[x] = (int) ((long) x * width / columns);
        }
        return starts;
    }

    private void addLine(int line, int[] starts, int[] sums) {
        int at = line;
        for (int x = 0; x < sums.length; x++) {
            int end = line + starts[x + 1];
            int sum = 0;
            while (at < end) {
                sum += pixels[at++] & 0xFF;
            }
            sums[x] += sum;
        }
    }
}
