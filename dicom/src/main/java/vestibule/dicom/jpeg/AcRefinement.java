package vestibule.dicom.jpeg;

import java.io.IOException;

/** One more bit of a band of AC coefficients, and those that only now are not zero (T.81 G.1.2.3). */
final class AcRefinement implements BlockVisitor {
    private final ProgressiveBand band;
    private int endedBlocks;

    AcRefinement(ProgressiveBand band) {
        this.band = band;
    }

    @Override
    public void visit(int component, int blockIndex) throws IOException {
        band.input().ensure();
        int index = band.first();
        if (endedBlocks == 0) {
            index = readUntilEnd(blockIndex);
        }
        if (endedBlocks > 0) {
            correctFrom(index, blockIndex);
            endedBlocks--;
        }
    }

    /** Reads symbols up to the end of the band or of the block; returns where the block ended. */
    private int readUntilEnd(int blockIndex) throws IOException {
        int last = band.last();
        int index = band.first();
        while (index <= last) {
            int symbol = band.symbol(blockIndex);
            int run = symbol >> 4;
            int category = symbol & 0xF;
            if (category == 0 && run < 15) {
                endedBlocks = band.endOfBandRun(run);
                return index;
            }
            if (category > 1) {
                throw band.outOfBand(blockIndex);
            }
            boolean positive = category == 1 && band.input().take(1) == 1;
            index = passZeros(index, run, blockIndex);
            if (category == 1) {
                if (index > last) {
                    throw band.outOfBand(blockIndex);
                }
                int magnitude = 1 << band.low();
                band.values()[64 * blockIndex + index] = (short) (positive ? magnitude : -magnitude);
                band.present()[blockIndex] |= 1L << index;
            }
            index++;
        }
        return index;
    }

    /** Goes over this many zeros to the zero after them, and corrects what is not zero on the way. */
    private int passZeros(int from, int zeros, int blockIndex) {
        long present = band.present()[blockIndex];
        int left = zeros;
        int index = from;
        while (index <= band.last()) {
            if ((present >>> index & 1) != 0) {
                correct(64 * blockIndex + index);
            } else if (left-- == 0) {
                break;
            }
            index++;
        }
        return index;
    }

    private void correctFrom(int from, int blockIndex) {
        long within = from > 63 ? 0 : -1L << from & -1L >>> (63 - band.last());
        for (long rest = band.present()[blockIndex] & within; rest != 0; rest &= rest - 1) {
            correct(64 * blockIndex + Long.numberOfTrailingZeros(rest));
        }
    }

    private void correct(int at) {
        EntropyInput input = band.input();
        if (input.count < 32) {
            input.refill();
        }
        if (input.take(1) == 1) {
            short[] values = band.values();
            int step = 1 << band.low();
            values[at] += (short) (values[at] > 0 ? step : -step);
        }
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
