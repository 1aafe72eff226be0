package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;

/**
 * A picture from its coefficients: how bright each block of the luminance is, how its contrast divides between the coarsest
 * pattern a block can show and finer ones, and the whole at half its size. Every code is decoded on the way, so that a
 * damaged picture is refused as by {@link EntropyCheck}; it takes about twice as long as that.
 */
public final class BlockLuminance {
    private static final int MIDDLE = 128;

    private final Plane plane;
    private final HalfSize half;
    private final int width;
    private final int height;
    private final boolean full;
    private final byte[] means;
    private final float[] coarse;
    private final float[] fine;

    private BlockLuminance(Plane plane, int width, int height, boolean full) {
        this.full = full;
        this.plane = plane;
        this.half = new HalfSize(plane);
        this.width = width;
        this.height = height;
        this.means = new byte[plane.blocks()];
        this.coarse = new float[plane.blocks()];
        this.fine = new float[plane.blocks()];
    }

    /**
     * Reads the first component, which is the luminance where there is one; of a picture that is coded as red, green and
     * blue the second, which comes nearest to it.
     *
     * @throws JpegFormatException where the data is damaged or cut short, or the picture is of a kind not decoded here
     */
    public static BlockLuminance read(SeekableByteChannel channel, Jpeg jpeg) throws IOException {
        Decodable.check(jpeg);
        int component = jpeg.color().coding() == ColorCoding.RGB ? 1 : 0;
        Component first = jpeg.frame().components().get(component);
        BlockLuminance luminance = new BlockLuminance(
                Plane.of(jpeg.frame(), first),
                Frame.ceilingOf(jpeg.frame().columnsOf(first), 2),
                Frame.ceilingOf(jpeg.frame().linesOf(first), 2),
                jpeg.frame().columnsOf(first) == jpeg.frame().samplesPerLine()
                        && jpeg.frame().linesOf(first) == jpeg.frame().lines());
        QuantizationTable steps = QuantizationPlan.tableAtFirstScan(jpeg, component, first.quantizationTable());
        boolean progressive = jpeg.frame().type().isProgressive();
        Blocks[] blocks = new Blocks[jpeg.frame().components().size()];
        for (int index = 0; index < blocks.length; index++) {
            Plane plane = Plane.of(jpeg.frame(), jpeg.frame().components().get(index));
            blocks[index] = new Blocks(plane, index, progressive);
        }
        Contrast contrast = luminance.new Contrast(component, steps);
        if (progressive) {
            new ProgressiveScans(channel, jpeg, blocks).read(of -> contrast);
        } else {
            new SequentialScans(channel, jpeg).read(blocks, contrast);
        }
        return luminance;
    }

    /** Whether the luminance has as many samples as the picture, on both axes; else the half is no half of the picture. */
    public boolean isFull() {
        return full;
    }

    /** Samples in a line of the picture at half its size. */
    public int halfWidth() {
        return width;
    }

    /** Lines of the picture at half its size. */
    public int halfHeight() {
        return height;
    }

    /** The picture at half its size, line by line, 0 for black to 255 for white. */
    public byte[] halfSize() {
        byte[] samples = new byte[Math.multiplyExact(width, height)];
        for (int line = 0; line < height; line++) {
            System.arraycopy(half.samples(), line * half.stride(), samples, line * width, width);
        }
        return samples;
    }

    /** Blocks in a row. */
    public int columns() {
        return plane.blocksWide();
    }

    /** Rows of blocks. */
    public int rows() {
        return plane.blocksHigh();
    }

    /** The mean of a block, 0 for black to 255 for white. */
    public int mean(int column, int row) {
        return means[row * plane.blocksWide() + column] & 0xFF;
    }

    /** The energy of a block in its coarsest patterns, one half wave across it: the square of samples, summed. */
    public double coarse(int column, int row) {
        return coarse[row * plane.blocksWide() + column];
    }

    /** The energy of a block in all finer patterns. */
    public double fine(int column, int row) {
        return fine[row * plane.blocksWide() + column];
    }

    /** Sums up the energies of the component's blocks and puts them down at half their size; reads the others and forgets them. */
    private final class Contrast extends BlockReader implements ProgressiveSink {
        private final int component;
        private final float[] steps = new float[64];
        private final BlockChecker others = new BlockChecker();

        Contrast(int component, QuantizationTable table) {
            this.component = component;
            for (int index = 0; index < steps.length; index++) {
                steps[index] = table.element(index);
            }
        }

        @Override
        HuffmanDecoder.Arrangement arrangement() {
            return HuffmanDecoder.Arrangement.SEVERAL_AND_VALUES;
        }

        @Override
        void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
                throws IOException {
            if (blocks.component() != component || index < 0) {
                others.read(in, dcDecoder, acDecoder, blocks, index);
                return;
            }
            readDc(in, dcDecoder, blocks, index);
            byte[] clean = in.clean;
            float[] low = half.low;
            long bits = in.bits;
            int count = in.count;
            int position = in.position;
            float energy = 0;
            int next = 1;
            while (next < 64) {
                bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
                position += (63 - count) >>> 3;
                count |= 56;
                long entry = acDecoder.valuedEntry(bits);
                int used = (int) entry & 0x1F;
                int first = next + ((int) entry >> 5 & 0x1F);
                int last = next + ((int) entry >> 10 & 0xFF);
                int value = HuffmanDecoder.firstValue(entry);
                int second = HuffmanDecoder.secondValue(entry);
                if (entry == 0
                        || (last > 64 && (last < HuffmanDecoder.END_OF_BLOCK || last > HuffmanDecoder.LATEST_END))) {
                    int one = acDecoder.acEntry(bits);
                    if (one == 0) {
                        throw noCode(in, blocks, index);
                    }
                    used = HuffmanDecoder.allBits(one);
                    last = next + HuffmanDecoder.advance(one);
                    first = last;
                    value = HuffmanDecoder.value(bits, one);
                    second = 0;
                }
                bits <<= used;
                count -= used;
                next = last;
                if ((value | second) != 0) {
                    // The second goes first: where there is none, its place is that of the first
                    float fine = second * steps[(last - 1) & 63];
                    low[HalfSize.PLACE[(last - 1) & 63]] = fine;
                    float coarse = value * steps[(first - 1) & 63];
                    low[HalfSize.PLACE[(first - 1) & 63]] = coarse;
                    energy += fine * fine + coarse * coarse;
                }
            }
            if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
                throw tooManyCoefficients(in, blocks, index);
            }
            in.bits = bits;
            in.count = count;
            in.position = position;
            note(index, blocks.predictor, energy);
        }

        @Override
        public void take(Blocks blocks, int index, ProgressiveBlock block) {
            if (blocks.component() != component) {
                return;
            }
            float energy = 0;
            for (long rest = block.present; rest != 0; rest &= rest - 1) {
                int place = Long.numberOfTrailingZeros(rest);
                float value = block.magnitudes[place] * steps[place];
                energy += value * value;
                half.low[HalfSize.PLACE[place]] = (block.negative >>> place & 1) == 0 ? value : -value;
            }
            note(index, blocks.dc[index], energy);
        }

        /** DC is eight times the mean less 128 (T.81 A.3.1, A.3.3); the two half waves are the coarsest patterns. */
        private void note(int index, int dc, float energy) {
            float[] low = half.low;
            int mean = MIDDLE + Math.round(dc * steps[0] / 8f);
            means[index] = (byte) Math.max(0, Math.min(255, mean));
            coarse[index] = low[1] * low[1] + low[HalfSize.EDGE] * low[HalfSize.EDGE];
            fine[index] = Math.max(0, energy - coarse[index]);
            low[0] = dc * steps[0];
            half.put(index % plane.blocksWide(), index / plane.blocksWide());
        }
    }
}
