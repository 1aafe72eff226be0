package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * Reads blocks, moves their coefficients to other places with other signs, and counts or encodes them anew. Exchanging
 * the axes of a picture exchanges the axes of each block's frequencies.
 *
 * <p>Looking up the codes of a block and placing their values are two loops: each then has so little in hand that it stays in
 * the processor's registers.
 */
final class AcReorderer extends BlockReader {
    /** Beyond the 63 AC coefficients of a block room for the one that is put down before it is known to count. */
    private static final int MOST_PAIRS = 64;

    /** Where in what is noted of a pair its entry stands, and where below that the coefficient it begins at. */
    private static final int ENTRY = 32;

    private static final int BEGIN = 26;

    /** For each number of extra bits as many ones. Here and below arrays are of a power of two so that masked indices need no check. */
    private static final int[] EXTRA = extra();

    private final BlockEncoder encoder;
    private final int[] places;
    private final ComponentCodes codes;
    private final long[] pairs = new long[MOST_PAIRS];

    AcReorderer(BlockEncoder encoder, BlockTurn turn, ComponentCodes codes) {
        this.encoder = encoder;
        this.places = places(turn);
        this.codes = codes;
    }

    private static int[] extra() {
        int[] extra = new int[16];
        for (int bits = 0; bits < extra.length; bits++) {
            extra[bits] = (1 << bits) - 1;
        }
        return extra;
    }

    /**
     * For each coefficient the place it gets, and in the upper bits, all alike, whether its sign changes. An end of the block
     * is put at the place of the DC coefficient, which nobody asks for.
     */
    private static int[] places(BlockTurn turn) {
        int[] order = turn.order();
        int[] places = new int[256];
        for (int index = 0; index < order.length; index++) {
            places[index] = order[index] | -(int) (turn.signChanges() >>> order[index] & 1) << 6;
        }
        return places;
    }

    @Override
    HuffmanDecoder.Arrangement arrangement() {
        return HuffmanDecoder.Arrangement.PAIRS;
    }

    @Override
    void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
            throws IOException {
        readDc(in, dcDecoder, blocks, index);
        int number = readPairs(in, acDecoder, blocks, index);
        if (index >= 0) {
            place(number);
            blocks.dc[index] = (short) blocks.predictor;
            codes.take(encoder, blocks, index);
        }
    }

    /**
     * Notes the pairs of the block that have values; returns how many. The loop within has no call in it, for what lives across a
     * call is kept in memory all the time; symbols that cannot be looked up in pairs are read outside.
     */
    private int readPairs(EntropyInput in, HuffmanDecoder decoder, Blocks blocks, int index) throws IOException {
        byte[] clean = in.clean;
        int[] table = decoder.pairs;
        long[] noted = pairs;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        int number = 0;
        int next = 1;
        while (next < 64) {
            int entry;
            do {
                // Two look-ups take up to 52 bits, so one fetch does for both
                bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
                position += (63 - count) >>> 3;
                count |= 56;
                entry = table[(int) (bits >>> (64 - HuffmanDecoder.WIDTH)) & (table.length - 1)];
                int last = next + HuffmanDecoder.bothMove(entry);
                if (entry == 0 || HuffmanDecoder.passes(last)) {
                    break;
                }
                noted[number & (noted.length - 1)] = noted(entry, next, bits);
                number += HuffmanDecoder.valued(entry);
                bits <<= entry & 0x1F;
                count -= entry & 0x1F;
                next = last;
                if (next >= 64) {
                    break;
                }
                entry = table[(int) (bits >>> (64 - HuffmanDecoder.WIDTH)) & (table.length - 1)];
                last = next + HuffmanDecoder.bothMove(entry);
                if (entry == 0 || HuffmanDecoder.passes(last)) {
                    break;
                }
                noted[number & (noted.length - 1)] = noted(entry, next, bits);
                number += HuffmanDecoder.valued(entry);
                bits <<= entry & 0x1F;
                count -= entry & 0x1F;
                next = last;
            } while (next < 64);
            if (next < 64) {
                entry = single(in, decoder, bits, blocks, index);
                noted[number & (noted.length - 1)] = noted(entry, next, bits);
                number += HuffmanDecoder.valued(entry);
                bits <<= entry & 0x1F;
                count -= entry & 0x1F;
                next += HuffmanDecoder.bothMove(entry);
            }
        }
        if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
            throw tooManyCoefficients(in, blocks, index);
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        return number;
    }

    private static long noted(int entry, int next, long bits) {
        return (long) entry << ENTRY | (long) next << BEGIN | bits >>> -(entry & 0x1F);
    }

    private static int single(EntropyInput in, HuffmanDecoder decoder, long bits, Blocks blocks, int index)
            throws JpegFormatException {
        int entry = decoder.singleEntry(bits);
        if (entry == 0) {
            throw noCode(in, blocks, index);
        }
        return entry;
    }

    /** Gives the encoder the values of the pairs noted. */
    private void place(int number) {
        long[] noted = pairs;
        int[] to = places;
        int[] ones = EXTRA;
        int[] values = encoder.values;
        long present = 0;
        for (int i = 0; i < number; i++) {
            long pair = noted[i & (noted.length - 1)];
            int entry = (int) (pair >>> ENTRY);
            int extra = (int) pair;
            int before = (extra >>> BEGIN) - 1;
            int first = to[before + HuffmanDecoder.firstMove(entry) & (to.length - 1)];
            int second = to[before + HuffmanDecoder.bothMove(entry) & (to.length - 1)];
            int category = HuffmanDecoder.firstExtra(entry);
            int secondCategory = HuffmanDecoder.secondExtra(entry);
            // The second goes first: where there is none, its place is that of the first
            values[second & (values.length - 1)] =
                    secondCategory << 16 | ((extra ^ second >> 6) & ones[secondCategory & (ones.length - 1)]);
            values[first & (values.length - 1)] = category << 16
                    | ((extra >>> HuffmanDecoder.secondBits(entry) ^ first >> 6) & ones[category & (ones.length - 1)]);
            present |= 1L << first | 1L << second;
        }
        encoder.present = present & ~1L;
    }
}
