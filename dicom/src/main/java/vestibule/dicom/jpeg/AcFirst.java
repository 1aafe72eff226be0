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
        visitRange(blockIndex, blockIndex + 1);
    }

    @Override
    public void visitRange(int from, int end) throws IOException {
        int index = from;
        while (index < end) {
            int ended = Math.min(endedBlocks, end - index);
            endedBlocks -= ended;
            index += ended;
            if (index < end) {
                read(index++);
            }
        }
    }

    private void read(int blockIndex) throws IOException {
        EntropyInput in = band.input();
        in.ensure();
        HuffmanDecoder decoder = band.decoder();
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        short[] values = band.values();
        int base = 64 * blockIndex;
        int last = band.last();
        int low = band.low();
        long present = 0;
        int index = band.first();
        while (index <= last) {
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            int found = decoder.symbolAndLength(bits);
            int category = found >> 5 & 0xF;
            int run = found >> 9;
            int length = found & 0x1F;
            if (found == 0 || (category > 0 && (index + run > last || category + low > LARGEST_CATEGORY))) {
                throw found == 0 ? BlockReader.noCode(in, band.blocks(), blockIndex) : band.outOfBand(blockIndex);
            }
            bits <<= length;
            count -= length;
            if (category > 0) {
                index += run;
                int value = HuffmanDecoder.extend((int) (bits >>> -category), category);
                bits <<= category;
                count -= category;
                values[base + index] = (short) (value << low);
                present |= 1L << index;
                index++;
            } else if (run == 15) {
                index += 16;
            } else {
                endedBlocks = (1 << run) - 1 + (int) (bits >>> 1 >>> (63 - run));
                bits <<= run;
                count -= run;
                break;
            }
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        if (present != 0) {
            band.present()[blockIndex] |= present;
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
