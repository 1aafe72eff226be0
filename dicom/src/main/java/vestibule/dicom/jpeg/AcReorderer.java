package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * Reads blocks, moves their coefficients to other places with other signs, and counts or encodes them anew. Exchanging
 * the axes of a picture exchanges the axes of each block's frequencies.
 */
final class AcReorderer extends BlockReader {
    private final BlockEncoder encoder;
    private final BlockTurn turn;
    private final int[] order;
    private final ComponentCodes codes;

    AcReorderer(BlockEncoder encoder, BlockTurn turn, ComponentCodes codes) {
        this.encoder = encoder;
        this.turn = turn;
        this.order = turn.order();
        this.codes = codes;
    }

    @Override
    HuffmanDecoder.Arrangement arrangement() {
        return HuffmanDecoder.Arrangement.PAIRS;
    }

    @Override
    void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
            throws IOException {
        readDc(in, dcDecoder, blocks, index);
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        long signs = turn.signChanges();
        int[] places = order;
        int[] values = encoder.values;
        long present = 0;
        int next = 1;
        while (next < 64) {
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            int entry = acDecoder.pairEntry(bits);
            int first = next + HuffmanDecoder.firstMove(entry);
            int last = first + HuffmanDecoder.secondMove(entry);
            if (entry == 0 || (last > 64 && (last < HuffmanDecoder.END_OF_BLOCK || last > HuffmanDecoder.LATEST_END))) {
                entry = acDecoder.singleEntry(bits);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
                first = next + HuffmanDecoder.firstMove(entry);
                last = first + HuffmanDecoder.secondMove(entry);
            }
            next = last;
            int all = entry & 0x1F;
            long chunk = bits >>> -all;
            bits <<= all;
            count -= all;
            if (HuffmanDecoder.hasValues(entry)) {
                int category = entry >> 20 & 0xF;
                int secondCategory = entry >> 24 & 0xF;
                int place = places[(first - 1) & 63];
                int secondPlace = places[(last - 1) & 63];
                int magnitude = (1 << category) - 1;
                int secondMagnitude = (1 << secondCategory) - 1;
                // The second goes first: where there is none, its place is that of the first or of nothing yet
                int secondValue = (int) chunk & secondMagnitude;
                secondValue ^= secondMagnitude & -(int) (signs >>> secondPlace & 1);
                values[secondPlace] = secondCategory << 16 | secondValue;
                present |= (long) ((secondCategory + 15) >> 4) << secondPlace;
                int value = (int) (chunk >>> (entry >> 15 & 0x1F)) & magnitude;
                value ^= magnitude & -(int) (signs >>> place & 1);
                values[place] = category << 16 | value;
                present |= (long) ((category + 15) >> 4) << place;
            }
        }
        if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
            throw tooManyCoefficients(in, blocks, index);
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        if (index >= 0) {
            encoder.present = present;
            blocks.dc[index] = (short) blocks.predictor;
            codes.take(encoder, blocks, index);
        }
    }
}
