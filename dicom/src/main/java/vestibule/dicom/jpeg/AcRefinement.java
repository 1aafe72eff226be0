package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * One more bit of a band of AC coefficients, and those that only now are not zero (T.81 G.1.2.3).
 *
 * <p>After each symbol stands one bit for each coefficient passed over that was not zero before. They are only gathered
 * while the symbols are read, and handed out when the block is through.
 */
final class AcRefinement extends ProgressiveBand {
    /** As many bits as are surely there after a symbol and what belongs to it: 16 and 14 bits of 56. */
    private static final int SURE_BITS = 24;

    private static final int SIXTEEN_ZEROS = 0xF0;

    /** A coefficient that begins above this bit has more bits than a baseline picture can write (T.81 Table F.2). */
    private static final int LARGEST_LOW = 9;

    private final ZeroPlaces zeros = new ZeroPlaces();

    AcRefinement(Scan scan, EntropyInput input, SymbolDecoder decoder, Blocks blocks) {
        super(scan, input, decoder, blocks);
    }

    @Override
    void read(ProgressiveBlock block, int blockIndex) throws IOException {
        long known = block.present & indices;
        if (endedBlocks > 0) {
            endedBlocks--;
            if (known != 0) {
                input.ensure();
                correct(block, known, takeBits(Long.bitCount(known)));
            }
            return;
        }
        input.ensure();
        readSymbols(block, known, blockIndex);
    }

    private void readSymbols(ProgressiveBlock block, long known, int blockIndex) throws IOException {
        EntropyInput in = input;
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        zeros.set(indices & ~known);
        byte[] places = zeros.places;
        int[] magnitudes = block.magnitudes;
        int step = 1 << low;
        int begin = first;
        int end = last;
        long present = 0;
        long negative = 0;
        long corrections = 0;
        int corrected = 0;
        int rank = 0;
        int place = begin - 1;
        while (place < end) {
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            int found = decoder.symbolAndLength(bits);
            int run = found >> 9;
            int used = found & 0x1F;
            if ((found >> 5 & 0xF) == 1) {
                rank += run;
                place = places[rank];
                long below = ~(bits << used) >>> 63;
                used++;
                if (place > end || low > LARGEST_LOW) {
                    throw wrongSymbol(found, blockIndex);
                }
                magnitudes[place & (magnitudes.length - 1)] = step;
                present |= 1L << place;
                negative |= below << place;
                rank++;
            } else if (found != 0 && found >> 5 == SIXTEEN_ZEROS) {
                rank += 15;
                place = places[rank];
                rank++;
            } else {
                if (found == 0 || (found >> 5 & 0xF) > 1) {
                    throw wrongSymbol(found, blockIndex);
                }
                endedBlocks = (1 << run) - 1 + (int) ((bits << used) >>> 1 >>> (63 - run));
                used += run;
                place = ZeroPlaces.NONE;
            }
            int number = (place == ZeroPlaces.NONE ? Long.bitCount(known) : place - begin + 1 - rank) - corrected;
            corrected += number;
            bits <<= used;
            count -= used;
            while (number > SURE_BITS) {
                corrections = corrections << SURE_BITS | bits >>> (64 - SURE_BITS);
                bits <<= SURE_BITS;
                count -= SURE_BITS;
                bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
                position += (63 - count) >>> 3;
                count |= 56;
                number -= SURE_BITS;
            }
            corrections = corrections << number | bits >>> 1 >>> (63 - number);
            bits <<= number;
            count -= number;
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        block.present |= present;
        block.negative |= negative;
        correct(block, known, corrections);
    }

    private long takeBits(int number) {
        long taken = 0;
        int left = number;
        while (left > SURE_BITS) {
            input.refill();
            taken = taken << SURE_BITS | input.bits >>> (64 - SURE_BITS);
            input.skip(SURE_BITS);
            left -= SURE_BITS;
        }
        input.refill();
        taken = taken << left | input.bits >>> -left;
        input.skip(left);
        return taken;
    }

    /** Each of these coefficients has one more bit: whether it is larger by one step. */
    private void correct(ProgressiveBlock block, long indices, long corrections) {
        long next = corrections << -Long.bitCount(indices);
        int[] magnitudes = block.magnitudes;
        for (long rest = indices; rest != 0; rest &= rest - 1) {
            magnitudes[Long.numberOfTrailingZeros(rest) & (magnitudes.length - 1)] |= (int) (next >>> 63) << low;
            next <<= 1;
        }
    }
}
