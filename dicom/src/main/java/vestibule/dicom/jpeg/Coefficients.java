package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Every quantized coefficient of a picture, before any arithmetic on it: what is compared when something is said to be
 * without loss. Takes two bytes of memory for each coefficient, within {@link JpegLimits#maxCoefficientBytes}.
 */
public final class Coefficients {
    private final Plane[] planes;
    private final short[][] values;
    private long surplusBytes;

    private Coefficients(Plane[] planes) {
        this.planes = planes;
        this.values = new short[planes.length][];
        for (int component = 0; component < planes.length; component++) {
            values[component] = new short[64 * planes[component].blocks()];
        }
    }

    /** Decodes the coefficients of a baseline, extended 8-bit or progressive picture; others are refused by name. */
    public static Coefficients read(Path file, JpegLimits limits) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(file)) {
            return read(channel, Jpeg.read(channel, limits));
        }
    }

    /** Decodes the coefficients of a picture that has been walked already. */
    public static Coefficients read(SeekableByteChannel channel, Jpeg jpeg) throws IOException {
        Decodable.check(jpeg);
        Plane[] planes = Decodable.planes(jpeg);
        Coefficients coefficients = new Coefficients(planes);
        Blocks[] blocks = new Blocks[planes.length];
        boolean progressive = jpeg.frame().type().isProgressive();
        for (int component = 0; component < blocks.length; component++) {
            blocks[component] = new Blocks(planes[component], component, progressive);
        }
        if (progressive) {
            ProgressiveScans scans = new ProgressiveScans(channel, jpeg, blocks);
            scans.read(of -> (component, index, block) -> {
                coefficients.take(component, index, block);
                return block;
            });
            coefficients.surplusBytes = scans.surplusBytes();
        } else {
            SequentialScans scans = new SequentialScans(channel, jpeg);
            scans.read(blocks, new CoefficientReader(coefficients));
            coefficients.surplusBytes = scans.surplusBytes();
        }
        return coefficients;
    }

    private void take(Blocks blocks, int index, ProgressiveBlock block) {
        short[] target = values[blocks.component()];
        target[64 * index] = blocks.dc[index];
        for (long rest = block.present; rest != 0; rest &= rest - 1) {
            int place = Long.numberOfTrailingZeros(rest);
            int magnitude = block.magnitudes[place];
            target[64 * index + place] = (short) ((block.negative >>> place & 1) == 0 ? magnitude : -magnitude);
        }
    }

    /** How many components there are. */
    public int components() {
        return planes.length;
    }

    /** Blocks in a row of a component, counted from 0. */
    public int blocksWide(int component) {
        return planes[component].blocksWide();
    }

    /** Rows of blocks of a component. */
    public int blocksHigh(int component) {
        return planes[component].blocksHigh();
    }

    /** One coefficient of a block; {@code index} in zigzag order, 0 is DC. */
    public int value(int component, int column, int row, int index) {
        return values[component][64 * (row * blocksWide(component) + column) + index];
    }

    /** Two pictures are equal here when they have the same blocks with the same coefficients. */
    @Override
    public boolean equals(@Nullable Object other) {
        if (!(other instanceof Coefficients that)) {
            return false;
        }
        if (planes.length != that.planes.length) {
            return false;
        }
        for (int component = 0; component < planes.length; component++) {
            if (blocksWide(component) != that.blocksWide(component)
                    || !Arrays.equals(values[component], that.values[component])) {
                return false;
            }
        }
        return true;
    }

    @Override
    public int hashCode() {
        return Arrays.deepHashCode(values);
    }

    /** Whole bytes after the last unit of a scan or an interval, which are no coefficients. */
    public long surplusBytes() {
        return surplusBytes;
    }

    short[] values(int component) {
        return values[component];
    }
}
