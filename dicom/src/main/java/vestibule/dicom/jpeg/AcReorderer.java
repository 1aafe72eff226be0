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
            int entry = acDecoder.shortEntry(bits);
            if (entry == 0) {
                entry = acDecoder.longAcEntry(bits);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
            }
            int all = entry >> 9 & 0x1F;
            int category = entry >> 5 & 0xF;
            next += entry >> 14;
            int chunk = (int) (bits >>> -all);
            bits <<= all;
            count -= all;
            if (category != 0) {
                int place = places[(next - 1) & 63];
                int magnitude = (1 << category) - 1;
                int value = (chunk & magnitude) ^ (magnitude & -(int) (signs >>> place & 1));
                values[place] = category << 16 | value;
                present |= 1L << place;
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
