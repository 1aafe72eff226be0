package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.Arrays;

/**
 * A picture at half its size, as far as brightness goes: each block of 8 by 8 samples as one of 4 by 4, by the inverse
 * transform of its sixteen lowest frequencies (T.81 A.3.3 with four points instead of eight), which is a mean over pairs of
 * samples without what would alias.
 *
 * <p>Every code is decoded on the way, so that a damaged picture is refused as by {@link EntropyCheck}; it takes about twice as
 * long as that.
 */
public final class HalfSize {
    /** Samples of a block across and down. */
    private static final int EDGE = 4;

    /** For each zigzag index the place among the sixteen that count, row times 4 plus column; 16 for the others. */
    private static final byte[] PLACE = places();

    /** The last zigzag index that counts, in the fourth row and column. */
    private static final int LAST = 24;

    /** Samples are coded from -128 to 127 (T.81 A.3.1); the half rounds. */
    private static final float MIDDLE = 128.5f;

    /** cos(π/8) and cos(3π/8) by the factor of the transform's AC terms, the square root of a half. */
    private static final float SLOW = (float) (Math.cos(Math.PI / 8) * Math.sqrt(0.5));

    private static final float FAST = (float) (Math.cos(3 * Math.PI / 8) * Math.sqrt(0.5));

    private final int width;
    private final int height;
    private final boolean full;
    private final int stride;
    private final byte[] samples;

    private HalfSize(LuminanceScans scans) {
        width = Frame.ceilingOf(scans.columns(), 2);
        height = Frame.ceilingOf(scans.lines(), 2);
        full = scans.isFull();
        stride = EDGE * scans.plane().blocksWide();
        samples = new byte[Math.multiplyExact(stride, EDGE * scans.plane().blocksHigh())];
    }

    /**
     * Reads a picture that has been walked already: its luminance, or its green where it is coded as red, green and blue.
     *
     * @throws JpegFormatException where the data is damaged or cut short, or the picture is of a kind not decoded here
     */
    public static HalfSize read(SeekableByteChannel channel, Jpeg jpeg) throws IOException {
        LuminanceScans scans = new LuminanceScans(channel, jpeg);
        HalfSize half = new HalfSize(scans);
        scans.read(half.new Reader(scans));
        return half;
    }

    /** Whether the luminance has as many samples as the picture, on both axes; else this is no half of the picture. */
    public boolean isFull() {
        return full;
    }

    /** Samples in a line. */
    public int width() {
        return width;
    }

    /** How many lines there are. */
    public int height() {
        return height;
    }

    /** The samples, line by line, 0 for black to 255 for white; what is done to them is done to this picture. */
    public byte[] samples() {
        if (stride == width && samples.length == width * height) {
            return samples;
        }
        byte[] cropped = new byte[Math.multiplyExact(width, height)];
        for (int line = 0; line < height; line++) {
            System.arraycopy(samples, line * stride, cropped, line * width, width);
        }
        return cropped;
    }

    private static byte[] places() {
        byte[] places = new byte[64];
        for (int index = 0; index < 64; index++) {
            int row = Zigzag.place(index) >> 3;
            int column = Zigzag.place(index) & 7;
            places[index] = (byte) (row < EDGE && column < EDGE ? EDGE * row + column : EDGE * EDGE);
        }
        return places;
    }

    /** Picks out the low frequencies of the luminance; what follows them in a block is only looked through. */
    private final class Reader extends LuminanceScans.Reader {
        private final float[] steps;
        private final int wide;

        /** The coefficients of one block times the quantization steps; the last place takes what does not count. */
        private final float[] low = new float[EDGE * EDGE + 1];

        Reader(LuminanceScans scans) throws IOException {
            super(scans);
            steps = scans.steps();
            wide = scans.plane().blocksWide();
        }

        @Override
        HuffmanDecoder.Arrangement arrangement() {
            return HuffmanDecoder.Arrangement.SEVERAL_AND_PAIRS;
        }

        @Override
        void readLuminance(
                EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
                throws IOException {
            readDc(in, dcDecoder, blocks, index);
            byte[] clean = in.clean;
            float[] target = low;
            long bits = in.bits;
            int count = in.count;
            int position = in.position;
            int next = 1;
            while (next <= LAST) {
                bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
                position += (63 - count) >>> 3;
                count |= 56;
                int entry = acDecoder.pairEntry(bits);
                int first = next + HuffmanDecoder.firstMove(entry);
                int last = next + HuffmanDecoder.bothMove(entry);
                if (entry == 0) {
                    entry = acDecoder.singleEntry(bits);
                    if (entry == 0) {
                        throw noCode(in, blocks, index);
                    }
                    first = next + HuffmanDecoder.firstMove(entry);
                    last = next + HuffmanDecoder.bothMove(entry);
                }
                next = last;
                int all = entry & 0x1F;
                long chunk = bits >>> -all;
                bits <<= all;
                count -= all;
                if (HuffmanDecoder.hasValues(entry)) {
                    // The second goes first: where there is none, its place is that of the first
                    target[PLACE[(last - 1) & 63]] = HuffmanDecoder.secondOf(chunk, entry) * steps[(last - 1) & 63];
                    target[PLACE[(first - 1) & 63]] = HuffmanDecoder.firstOf(chunk, entry) * steps[(first - 1) & 63];
                }
            }
            in.bits = bits;
            in.count = count;
            in.position = position;
            BlockChecker.readRest(in, acDecoder, blocks, index, next);
            put(index, blocks.predictor);
        }

        @Override
        void takeLuminance(Blocks blocks, int index, ProgressiveBlock block) {
            for (long rest = block.present; rest != 0; rest &= rest - 1) {
                int place = Long.numberOfTrailingZeros(rest);
                float value = block.magnitudes[place] * steps[place];
                low[PLACE[place]] = (block.negative >>> place & 1) == 0 ? value : -value;
            }
            put(index, blocks.dc[index]);
        }

        /** Puts the block whose coefficients are in {@link #low} where it belongs, and forgets them. */
        private void put(int index, int dc) {
            float[] block = low;
            block[0] = dc * steps[0];
            // DC is eight times the mean of 64 samples and has to be four times that of 16
            for (int x = 0; x < EDGE; x++) {
                transform(block, x, EDGE, 0.5f);
            }
            int target = EDGE * (index / wide * stride + index % wide);
            for (int y = 0; y < EDGE; y++) {
                transform(block, EDGE * y, 1, 1);
                for (int x = 0; x < EDGE; x++) {
                    int sample = (int) (block[EDGE * y + x] + MIDDLE);
                    samples[target + x] = (byte) (sample < 0 ? 0 : Math.min(sample, 255));
                }
                target += stride;
            }
            Arrays.fill(block, 0);
        }
    }

    /** Four points in place. */
    private static void transform(float[] block, int from, int step, float factor) {
        float first = block[from];
        float second = block[from + step];
        float third = block[from + 2 * step];
        float fourth = block[from + 3 * step];
        float even = 0.5f * (first + third) * factor;
        float odd = 0.5f * (first - third) * factor;
        float outer = (SLOW * second + FAST * fourth) * factor;
        float inner = (FAST * second - SLOW * fourth) * factor;
        block[from] = even + outer;
        block[from + step] = odd + inner;
        block[from + 2 * step] = odd - inner;
        block[from + 3 * step] = even - outer;
    }
}
