package vestibule.dicom.jpeg;

import java.io.IOException;

/** The first scan of a band of AC coefficients, all but their lowest bits (T.81 G.1.2.2). */
final class AcFirst implements BlockVisitor {
    private static final int LARGEST_CATEGORY = 10;

    private final ProgressiveBand band;
    private int endedBlocks;

    AcFirst(ProgressiveBand band) {
        this.band = band;
    }

    @Override
    public void visit(int component, int blockIndex) throws IOException {
        if (endedBlocks > 0) {
            endedBlocks--;
            return;
        }
        EntropyInput input = band.input();
        input.ensure();
        short[] values = band.values();
        int last = band.last();
        int low = band.low();
        long present = 0;
        int index = band.first();
        while (index <= last) {
            int symbol = band.symbol(blockIndex);
            int run = symbol >> 4;
            int category = symbol & 0xF;
            if (category == 0) {
                if (run < 15) {
                    endedBlocks = band.endOfBandRun(run) - 1;
                    break;
                }
                index += 16;
                continue;
            }
            index += run;
            if (index > last || category + low > LARGEST_CATEGORY) {
                throw band.outOfBand(blockIndex);
            }
            int value = HuffmanDecoder.extend(input.take(category), category);
            values[64 * blockIndex + index] = (short) (value * (1 << low));
            present |= 1L << index;
            index++;
        }
        band.present()[blockIndex] |= present;
    }

    @Override
    public void restart() {
        endedBlocks = 0;
    }

    @Override
    public void endInterval() throws IOException {
        band.checkRunEnded(endedBlocks);
    }
}
