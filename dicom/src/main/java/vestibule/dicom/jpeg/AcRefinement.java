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

    @Override
    public void visitRange(int from, int end) throws IOException {
        long[] present = band.present();
        long indices = band.indices();
        for (int index = from; index < end; index++) {
            if (endedBlocks > 0 && (present[index] & indices) == 0) {
                endedBlocks--;
            } else {
                visit(0, index);
            }
        }
    }

    /** Reads symbols up to the end of the band or of the block; returns where the block ended. */
    private int readUntilEnd(int blockIndex) throws IOException {
        EntropyInput in = band.input();
        HuffmanDecoder decoder = band.decoder();
        long known = band.present()[blockIndex];
        long added = 0;
        int last = band.last();
        int step = 1 << band.low();
        int index = band.first();
        while (index <= last) {
            in.refill();
            int found = decoder.symbolAndLength(in.bits);
            int run = found >> 9;
            int category = found >> 5 & 0xF;
            in.skip(found & 0x1F);
            if (found == 0 || category > 1) {
                throw found == 0 ? BlockReader.noCode(in, band.blocks(), blockIndex) : band.outOfBand(blockIndex);
            }
            if (category == 0 && run < 15) {
                endedBlocks = band.endOfBandRun(run);
                break;
            }
            int value = category == 0 ? 0 : in.take(1) == 1 ? step : -step;
            long zeros = ~known & band.indices() & -1L << index;
            for (int left = run; left > 0; left--) {
                zeros &= zeros - 1;
            }
            int place = zeros == 0 ? last + 1 : Long.numberOfTrailingZeros(zeros);
            correct(known & -1L << index & ~(zeros == 0 ? 0 : -1L << place) & band.indices(), blockIndex);
            if (category == 1) {
                if (place > last) {
                    throw band.outOfBand(blockIndex);
                }
                band.values()[64 * blockIndex + place] = (short) value;
                added |= 1L << place;
            }
            index = place + 1;
        }
        band.present()[blockIndex] = known | added;
        return index;
    }

    private void correctFrom(int from, int blockIndex) {
        correct(from > 63 ? 0 : band.present()[blockIndex] & band.indices() & -1L << from, blockIndex);
    }

    /** Each of these coefficients has one more bit in the data: whether it is larger by one step. */
    private void correct(long indices, int blockIndex) {
        if (indices == 0) {
            return;
        }
        EntropyInput in = band.input();
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        short[] values = band.values();
        int low = band.low();
        int base = 64 * blockIndex;
        for (long rest = indices; rest != 0; rest &= rest - 1) {
            if (count < 8) {
                bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
                position += (63 - count) >>> 3;
                count |= 56;
            }
            int at = base + Long.numberOfTrailingZeros(rest);
            int value = values[at];
            int sign = value >> 31 | 1;
            values[at] = (short) (value + sign * ((int) (bits >>> 63) << low));
            bits <<= 1;
            count--;
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
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
