package vestibule.bridge.photo;

import java.awt.image.Raster;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.FileImageInputStream;
import vestibule.bridge.color.Colors;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.jpeg.ByteRange;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.EdgeLoss;
import vestibule.dicom.jpeg.Essential;
import vestibule.dicom.jpeg.Frame;
import vestibule.dicom.jpeg.Turn;

/**
 * Unpacks the pictures that no JPEG Baseline object holds: red, green and blue as they are, and four inks. The decoder is asked for the
 * components as the stream has them, so that it never guesses at colours; turning then moves whole pixels.
 */
final class SampleUnpacking {

    /** Unpacked pixels lie in memory for a moment, so there are fewer than a stream may have. */
    private static final long MOST_PIXELS = 64_000_000;

    private final Photo photo;
    private final Scratch scratch;
    private final ColorCoding coding;

    SampleUnpacking(Photo photo, Scratch scratch) {
        this.photo = photo;
        this.scratch = scratch;
        this.coding = photo.jpeg().color().coding();
    }

    Picture picture(PictureMaker.Wish wish, Colors colors) throws IOException, PhotoException {
        Frame frame = photo.jpeg().frame();
        if (frame.pixels() > MOST_PIXELS) {
            throw new PhotoException("the picture has %d pixels and would have to be unpacked, which is done up to %d"
                    .formatted(frame.pixels(), MOST_PIXELS));
        }
        Essential essential = photo.jpeg().essentialWithoutProfile();
        Raster raster = decoded(essential);
        Turn turn = wish.turn();
        int columns = turn.exchangesAxes() ? raster.getHeight() : raster.getWidth();
        int rows = turn.exchangesAxes() ? raster.getWidth() : raster.getHeight();
        Path samples = scratch.next();
        write(raster, turn, rows, columns, samples);
        boolean inks = coding != ColorCoding.RGB;
        return new Picture(
                Picture.Form.RGB,
                rows,
                columns,
                Bulk.of(samples, 0, 3L * rows * columns),
                essential.length(),
                new Changes(
                        wish.upright(),
                        wish.correction(),
                        new EdgeLoss(0, 0),
                        inks ? Changes.Coding.INKS : Changes.Coding.UNPACKED),
                colors);
    }

    /** A library reads foreign bytes here: whatever it throws, or warns of, means that the stream is damaged. */
    private Raster decoded(Essential essential) throws IOException, PhotoException {
        Path stream = scratch.next();
        try (OutputStream out = Files.newOutputStream(stream)) {
            for (ByteRange range : essential.ranges()) {
                try (var in =
                        Bulk.of(photo.file(), range.offset(), range.length()).open()) {
                    in.transferTo(out);
                }
            }
        }
        Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("jpeg");
        ImageReader reader = readers.next();
        boolean[] warned = new boolean[1];
        reader.addIIOReadWarningListener((source, warning) -> warned[0] = true);
        try (FileImageInputStream input = new FileImageInputStream(stream.toFile())) {
            reader.setInput(input, true, true);
            Raster raster = reader.readRaster(0, null);
            Frame frame = photo.jpeg().frame();
            boolean asDeclared = raster.getNumBands() == frame.components().size()
                    && raster.getWidth() == frame.samplesPerLine()
                    && raster.getHeight() == frame.lines();
            if (warned[0] || !asDeclared) {
                throw new PhotoException("the stream is damaged and cannot be unpacked whole");
            }
            return raster;
        } catch (javax.imageio.IIOException | RuntimeException damaged) {
            throw new PhotoException("the stream is damaged and cannot be unpacked");
        } finally {
            reader.dispose();
        }
    }

    private void write(Raster raster, Turn turn, int rows, int columns, Path target) throws IOException {
        int bands = raster.getNumBands();
        int width = raster.getWidth();
        int height = raster.getHeight();
        int[] pixel = new int[bands];
        byte[] row = new byte[3 * columns];
        try (OutputStream out = Files.newOutputStream(target)) {
            for (int y = 0; y < rows; y++) {
                for (int x = 0; x < columns; x++) {
                    switch (turn) {
                        case NONE -> raster.getPixel(x, y, pixel);
                        case FLIP_HORIZONTAL -> raster.getPixel(width - 1 - x, y, pixel);
                        case FLIP_VERTICAL -> raster.getPixel(x, height - 1 - y, pixel);
                        case ROTATE_180 -> raster.getPixel(width - 1 - x, height - 1 - y, pixel);
                        case ROTATE_90 -> raster.getPixel(y, height - 1 - x, pixel);
                        case ROTATE_270 -> raster.getPixel(width - 1 - y, x, pixel);
                        case TRANSPOSE -> raster.getPixel(y, x, pixel);
                        case TRANSVERSE -> raster.getPixel(width - 1 - y, height - 1 - x, pixel);
                    }
                    put(pixel, row, 3 * x);
                }
                out.write(row);
            }
        }
    }

    private void put(int[] pixel, byte[] row, int at) {
        if (coding == ColorCoding.RGB) {
            for (int component = 0; component < 3; component++) {
                row[at + component] = (byte) pixel[component];
            }
            return;
        }
        double[] light = {pixel[0], pixel[1], pixel[2]};
        if (coding == ColorCoding.YCCK) {
            double blue = pixel[1] - 128.0;
            double red = pixel[2] - 128.0;
            // T.871 clause 7, and then each ink is what its colour lacks (T.872 6.5.3)
            light[0] = 255 - limited(pixel[0] + 1.402 * red);
            light[1] = 255 - limited(pixel[0] - 0.344136 * blue - 0.714136 * red);
            light[2] = 255 - limited(pixel[0] + 1.772 * blue);
        }
        // With an Adobe segment the numbers say how much light is left, without one how much ink there is
        boolean inverted = photo.jpeg().adobe().isPresent();
        for (int component = 0; component < 3; component++) {
            double colour = inverted ? light[component] : 255 - light[component];
            double black = inverted ? pixel[3] : 255 - pixel[3];
            row[at + component] = (byte) Math.round(colour * black / 255);
        }
    }

    private static double limited(double value) {
        return Math.max(0, Math.min(255, value));
    }
}
