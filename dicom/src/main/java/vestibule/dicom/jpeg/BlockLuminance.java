package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;

/**
 * A picture at an eighth of its size, from its coefficients and without computing a sample: how bright each block of the
 * luminance is, and how its contrast divides between the coarsest pattern a block can show and finer ones. Takes about
 * as long as a check of every code.
 */
public final class BlockLuminance {
    private static final int MIDDLE = 128;

    /** The zigzag indices 1 and 2 are the two half waves. */
    private static final int COARSE_END = 3;

    private final Plane plane;
    private final byte[] means;
    private final float[] coarse;
    private final float[] fine;

    private BlockLuminance(Plane plane) {
        this.plane = plane;
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
        Plane[] planes = Decodable.planes(jpeg);
        int component = jpeg.color().coding() == ColorCoding.RGB ? 1 : 0;
        BlockLuminance luminance = new BlockLuminance(planes[component]);
        QuantizationTable steps = QuantizationPlan.tableAtFirstScan(
                jpeg, component, jpeg.frame().components().get(component).quantizationTable());
        Blocks[] blocks = new Blocks[planes.length];
        for (int index = 0; index < blocks.length; index++) {
            blocks[index] = new Blocks(planes[index], index, true);
        }
        Contrast contrast = luminance.new Contrast(component, steps);
        if (jpeg.frame().type().isProgressive()) {
            new ProgressiveScans(channel, jpeg, blocks).read(of -> contrast);
        } else {
            new SequentialScans(channel, jpeg).read(blocks, contrast);
        }
        return luminance;
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

    /** Sums up the energies of the component's blocks; reads the others and forgets them. */
    private final class Contrast extends BlockReader implements ProgressiveSink {
        private final int component;
        private final QuantizationTable steps;
        private final BlockChecker others = new BlockChecker();

        Contrast(int component, QuantizationTable steps) {
            this.component = component;
            this.steps = steps;
        }

        /** What the reader of the other components needs. */
        @Override
        HuffmanDecoder.Arrangement arrangement() {
            return others.arrangement();
        }

        @Override
        void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
                throws IOException {
            if (blocks.component() != component || index < 0) {
                others.read(in, dcDecoder, acDecoder, blocks, index);
                return;
            }
            readDc(in, dcDecoder, blocks, index);
            float low = 0;
            float high = 0;
            int next = 1;
            while (next < 64) {
                in.refill();
                int shortEntry = acDecoder.shortEntry(in.bits);
                int entry = shortEntry != 0 ? shortEntry : acDecoder.longAcEntry(in.bits);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
                int category = HuffmanDecoder.extraBits(entry);
                int all = HuffmanDecoder.allBits(entry);
                int extra = (int) (in.bits >>> -all) & ((1 << category) - 1);
                in.bits <<= all;
                in.count -= all;
                next += HuffmanDecoder.advance(entry);
                if (category != 0 && next <= 64) {
                    float value = HuffmanDecoder.extend(extra, category) * steps.element(next - 1);
                    low += next <= COARSE_END ? value * value : 0;
                    high += next <= COARSE_END ? 0 : value * value;
                }
            }
            if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
                throw tooManyCoefficients(in, blocks, index);
            }
            note(index, blocks.predictor, low, high);
        }

        @Override
        public void take(Blocks blocks, int index, ProgressiveBlock block) {
            if (blocks.component() != component) {
                return;
            }
            float low = 0;
            float high = 0;
            for (long rest = block.present; rest != 0; rest &= rest - 1) {
                int place = Long.numberOfTrailingZeros(rest);
                float value = block.magnitudes[place] * steps.element(place);
                low += place < COARSE_END ? value * value : 0;
                high += place < COARSE_END ? 0 : value * value;
            }
            note(index, blocks.dc[index], low, high);
        }

        /** DC is eight times the mean less 128 (T.81 A.3.1, A.3.3). */
        private void note(int index, int dc, float low, float high) {
            int mean = MIDDLE + Math.round(dc * steps.element(0) / 8f);
            means[index] = (byte) Math.max(0, Math.min(255, mean));
            coarse[index] = low;
            fine[index] = high;
        }
    }
}
