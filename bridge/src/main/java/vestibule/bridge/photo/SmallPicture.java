package vestibule.bridge.photo;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.util.Arrays;
import java.util.Optional;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.BlockLuminance;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Turn;

/**
 * How bright a picture is in each of a few fields, as many across as down whatever its shape: enough to tell whether two pictures are of
 * the same thing, and which way round.
 */
public final class SmallPicture {

    /** Fields across and down. */
    private static final int EDGE = 32;

    /** In each field so many places across and down are looked at. */
    private static final int PLACES = 8;

    /** What is lighter than so many fields on each side of it is drawing. */
    private static final int AROUND = 6;

    /** Samples across and down of what is averaged first. */
    private static final int BLOCK = 8;

    /** A picture with fewer blocks than this across or down is too small to tell anything. */
    private static final int FEWEST_BLOCKS = 6;

    private final float[] fields;

    private SmallPicture(float[] fields) {
        this.fields = fields;
    }

    /** A photograph as it is seen; empty where its brightness cannot be told here, as with inks, or it is too small. */
    public static Optional<SmallPicture> of(Photo photo) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(photo.file())) {
            return of(channel, photo.jpeg()).map(picture -> picture.turned(photo.upright()));
        } catch (JpegFormatException damagedOrOfAnotherKind) {
            // Whether it becomes an object is decided elsewhere, and said there
            return Optional.empty();
        }
    }

    /** The picture of an object, JPEG or unpacked in eight bits; empty where its brightness cannot be told here. */
    public static Optional<SmallPicture> of(DataSet object) throws IOException {
        Optional<Value> pixels = object.find(Attributes.PIXEL_DATA).map(element -> element.value());
        if (pixels.isPresent() && pixels.get() instanceof Value.Fragments fragments) {
            try (SeekableByteChannel channel =
                    Bulk.concat(fragments.fragments()).channel()) {
                return of(channel, Jpeg.read(channel, JpegLimits.DEFAULT));
            } catch (JpegFormatException damagedOrOfAnotherKind) {
                // A stream of another kind may be a good picture all the same, and only cannot be compared
                return Optional.empty();
            }
        }
        return pixels.isPresent() && pixels.get() instanceof Value.Binary binary
                ? unpacked(object, binary.bulk())
                : Optional.empty();
    }

    private static Optional<SmallPicture> of(SeekableByteChannel channel, Jpeg jpeg) throws IOException {
        ColorCoding coding = jpeg.color().coding();
        if (coding != ColorCoding.GREY && coding != ColorCoding.YCBCR && coding != ColorCoding.RGB) {
            return Optional.empty();
        }
        BlockLuminance luminance = BlockLuminance.read(channel, jpeg);
        int columns = luminance.columns();
        float[] blocks = new float[columns * luminance.rows()];
        for (int at = 0; at < blocks.length; at++) {
            blocks[at] = luminance.mean(at % columns, at / columns);
        }
        return of(
                blocks,
                columns,
                inBlocks(jpeg.frame().samplesPerLine(), columns),
                inBlocks(jpeg.frame().lines(), luminance.rows()));
    }

    /** The last block may be there in part only; of a component with fewer samples each block is a larger piece of the picture. */
    private static double inBlocks(int samples, int blocks) {
        return (samples + BLOCK - 1) / BLOCK == blocks ? samples / (double) BLOCK : blocks;
    }

    /** Red, green and blue, or grey, one byte each. */
    private static Optional<SmallPicture> unpacked(DataSet object, Bulk samples) throws IOException {
        int columns = object.integer(Attributes.COLUMNS).orElse(0L).intValue();
        int rows = object.integer(Attributes.ROWS).orElse(0L).intValue();
        int each = object.integer(Attributes.SAMPLES_PER_PIXEL).orElse(0L).intValue();
        String colors = object.text(Attributes.PHOTOMETRIC_INTERPRETATION).orElse("");
        boolean known = (each == 3 && colors.equals("RGB")) || (each == 1 && colors.equals("MONOCHROME2"));
        long length = (long) columns * rows * each;
        boolean whole = length > 0
                && samples.length() - length >= 0
                && samples.length() - length <= 1
                && object.integer(Attributes.BITS_ALLOCATED).equals(Optional.of(8L))
                && object.integer(Attributes.PLANAR_CONFIGURATION).orElse(0L) == 0
                && (long) columns * rows <= JpegLimits.DEFAULT.maxPixels();
        if (!known || !whole) {
            return Optional.empty();
        }
        int wide = (columns + BLOCK - 1) / BLOCK;
        float[] sums = new float[wide * ((rows + BLOCK - 1) / BLOCK)];
        float[] counts = new float[sums.length];
        byte[] line = new byte[columns * each];
        try (InputStream in = samples.open()) {
            for (int y = 0; y < rows; y++) {
                if (in.readNBytes(line, 0, line.length) < line.length) {
                    return Optional.empty();
                }
                add(line, each, y / BLOCK * wide, sums, counts);
            }
        }
        for (int at = 0; at < sums.length; at++) {
            sums[at] /= counts[at];
        }
        return of(sums, wide, columns / (double) BLOCK, rows / (double) BLOCK);
    }

    private static void add(byte[] line, int each, int from, float[] sums, float[] counts) {
        for (int x = 0; x < line.length / each; x++) {
            int at = each * x;
            int brightness = each == 1
                    ? line[at] & 0xFF
                    : (299 * (line[at] & 0xFF) + 587 * (line[at + 1] & 0xFF) + 114 * (line[at + 2] & 0xFF)) / 1000;
            sums[from + x / BLOCK] += brightness;
            counts[from + x / BLOCK]++;
        }
    }

    /**
     * @param columns blocks in a line of the array
     * @param wide how many of them the picture takes, in parts too
     */
    private static Optional<SmallPicture> of(float[] blocks, int columns, double wide, double high) {
        if (wide < FEWEST_BLOCKS || high < FEWEST_BLOCKS) {
            return Optional.empty();
        }
        float[] fields = new float[EDGE * EDGE];
        int steps = EDGE * PLACES;
        for (int y = 0; y < steps; y++) {
            double down = (y + 0.5) / steps * high - 0.5;
            for (int x = 0; x < steps; x++) {
                double across = (x + 0.5) / steps * wide - 0.5;
                fields[y / PLACES * EDGE + x / PLACES] += (float) between(blocks, columns, across, down);
            }
        }
        return Optional.of(new SmallPicture(fields));
    }

    /** Between the middles of four blocks. */
    private static double between(float[] blocks, int columns, double across, double down) {
        int rows = blocks.length / columns;
        int left = (int) Math.max(0, Math.floor(across));
        int top = (int) Math.max(0, Math.floor(down));
        int right = Math.min(left + 1, columns - 1);
        int bottom = Math.min(top + 1, rows - 1);
        double x = Math.max(0, across - left);
        double y = Math.max(0, down - top);
        double upper = blocks[top * columns + left] * (1 - x) + blocks[top * columns + right] * x;
        double lower = blocks[bottom * columns + left] * (1 - x) + blocks[bottom * columns + right] * x;
        return upper * (1 - y) + lower * y;
    }

    /** The picture laid down so. */
    public SmallPicture turned(Turn turn) {
        float[] turned = new float[fields.length];
        int last = EDGE - 1;
        for (int y = 0; y < EDGE; y++) {
            for (int x = 0; x < EDGE; x++) {
                turned[y * EDGE + x] = switch (turn) {
                    case NONE -> field(x, y);
                    case FLIP_HORIZONTAL -> field(last - x, y);
                    case FLIP_VERTICAL -> field(x, last - y);
                    case ROTATE_180 -> field(last - x, last - y);
                    case ROTATE_90 -> field(y, last - x);
                    case ROTATE_270 -> field(last - y, x);
                    case TRANSPOSE -> field(y, x);
                    case TRANSVERSE -> field(last - y, last - x);
                };
            }
        }
        return new SmallPicture(turned);
    }

    private float field(int x, int y) {
        return fields[y * EDGE + x];
    }

    /** Whether the lightest and the darkest tenth of the fields are hardly apart. */
    boolean isFlat(double levels) {
        float[] sorted = fields.clone();
        Arrays.sort(sorted);
        int tenth = sorted.length / 10;
        return (sorted[sorted.length - 1 - tenth] - sorted[tenth]) / (PLACES * PLACES) < levels;
    }

    /**
     * How alike two pictures are: the correlation of their drawing, so that another brightness or contrast of the whole does not count, with
     * the lightest and darkest few cut down, so that an arrow drawn into it counts for little. 1 for the same, about 0 for pictures that have
     * nothing to do with each other.
     */
    double likeness(SmallPicture other) {
        double[] here = drawing();
        double[] there = other.drawing();
        double product = 0;
        double square = 0;
        double otherSquare = 0;
        for (int at = 0; at < here.length; at++) {
            product += here[at] * there[at];
            square += here[at] * here[at];
            otherSquare += there[at] * there[at];
        }
        return square == 0 || otherSquare == 0 ? 0 : product / Math.sqrt(square * otherSquare);
    }

    /** Without what is only lighter in the middle than at the edges, as nearly all pictures are. */
    private double[] drawing() {
        float[] sorted = fields.clone();
        Arrays.sort(sorted);
        float least = sorted[sorted.length / 50];
        float most = sorted[sorted.length - 1 - sorted.length / 50];
        double[] cut = new double[fields.length];
        for (int at = 0; at < cut.length; at++) {
            cut[at] = Math.max(least, Math.min(most, fields[at]));
        }
        double[] drawing = new double[fields.length];
        for (int at = 0; at < drawing.length; at++) {
            drawing[at] = cut[at] - around(cut, at % EDGE, at / EDGE);
        }
        return drawing;
    }

    private static double around(double[] values, int column, int row) {
        double sum = 0;
        int count = 0;
        for (int y = Math.max(0, row - AROUND); y <= Math.min(EDGE - 1, row + AROUND); y++) {
            for (int x = Math.max(0, column - AROUND); x <= Math.min(EDGE - 1, column + AROUND); x++) {
                sum += values[y * EDGE + x];
                count++;
            }
        }
        return sum / count;
    }
}
