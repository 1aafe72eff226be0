package vestibule.dicom.jpeg;

import java.io.IOException;

/** The first scan of a band of AC coefficients, all but their lowest bits (T.81 G.1.2.2). */
final class AcFirst extends ProgressiveBand {
    private static final int LARGEST_CATEGORY = 10;

    AcFirst(Scan scan, EntropyInput input, SymbolDecoder decoder, Blocks blocks) {
        super(scan, input, decoder, blocks);
    }

    @Override
    void read(ProgressiveBlock block, int blockIndex) throws IOException {
        if (endedBlocks > 0) {
            endedBlocks--;
            return;
        }
        EntropyInput in = input;
        in.ensure();
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        int[] magnitudes = block.magnitudes;
        long present = 0;
        long negative = 0;
        int index = first;
        while (index <= last) {
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            int found = decoder.symbolAndLength(bits);
            int category = found >> 5 & 0xF;
            int run = found >> 9;
            bits <<= found & 0x1F;
            count -= found & 0x1F;
            if (category == 0) {
                if (run == 15) {
                    index += 16;
                    continue;
                }
                if (found == 0) {
                    throw wrongSymbol(found, blockIndex);
                }
                endedBlocks = (1 << run) - 1 + (int) (bits >>> 1 >>> (63 - run));
                bits <<= run;
                count -= run;
                break;
            }
            index += run;
            if (index > last || category + low > LARGEST_CATEGORY) {
                throw wrongSymbol(found, blockIndex);
            }
            // A first bit of one says above zero, else the bits are the complement (T.81 Table F.1)
            int below = (int) (~bits >> 63);
            magnitudes[index & (magnitudes.length - 1)] = (int) ((bits ^ below) >>> -category) << low;
            present |= 1L << index;
            negative |= (below & 1L) << index;
            bits <<= category;
            count -= category;
            index++;
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        block.present |= present;
        block.negative |= negative;
    }
}
