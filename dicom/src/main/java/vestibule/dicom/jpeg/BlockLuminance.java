package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;

/**
 * A picture from its coefficients: how bright each block of the luminance is, and how its contrast divides between the
 * coarsest pattern a block can show and finer ones. Every code is decoded on the way, so that a damaged picture is refused
 * as by {@link EntropyCheck}.
 */
public final class BlockLuminance {
    private static final int MIDDLE = 128;

    /** Zigzag indices 1 and 2 are half a wave across and down (T.81 Figure A.6), the coarsest patterns of a block. */
    private static final int COARSEST = 2;

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
        LuminanceScans scans = new LuminanceScans(channel, jpeg);
        BlockLuminance luminance = new BlockLuminance(scans.plane());
        scans.read(luminance.new Contrast(scans));
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

    /** Sums up the energies of the component's blocks. */
    private final class Contrast extends LuminanceScans.Reader {
        private final float[] steps;

        Contrast(LuminanceScans scans) throws IOException {
            super(scans);
            steps = scans.steps();
        }

        @Override
        HuffmanDecoder.Arrangement arrangement() {
            return HuffmanDecoder.Arrangement.SEVERAL;
        }

        @Override
        void readLuminance(
                EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
                throws IOException {
            readDc(in, dcDecoder, blocks, index);
            float coarsest = 0;
            float energy = 0;
            int next = 1;
            while (next < 64) {
                in.refill();
                int entry = acDecoder.acEntry(in.bits);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
                next += HuffmanDecoder.advance(entry);
                float value = HuffmanDecoder.value(in.bits, entry) * steps[(next - 1) & 63];
                energy += value * value;
                coarsest += next - 1 <= COARSEST ? value * value : 0;
                in.bits <<= HuffmanDecoder.allBits(entry);
                in.count -= HuffmanDecoder.allBits(entry);
            }
            if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
                throw tooManyCoefficients(in, blocks, index);
            }
            note(index, blocks.predictor, coarsest, energy);
        }

        @Override
        void takeLuminance(Blocks blocks, int index, ProgressiveBlock block) {
            float coarsest = 0;
            float energy = 0;
            for (long rest = block.present; rest != 0; rest &= rest - 1) {
                int place = Long.numberOfTrailingZeros(rest);
                float value = block.magnitudes[place] * steps[place];
                energy += value * value;
                coarsest += place <= COARSEST ? value * value : 0;
            }
            note(index, blocks.dc[index], coarsest, energy);
        }

        /** DC is eight times the mean less 128 (T.81 A.3.1, A.3.3). */
        private void note(int index, int dc, float coarsest, float energy) {
            int mean = MIDDLE + Math.round(dc * steps[0] / 8f);
            means[index] = (byte) Math.max(0, Math.min(255, mean));
            coarse[index] = coarsest;
            fine[index] = Math.max(0, energy - coarsest);
        }
    }
}
