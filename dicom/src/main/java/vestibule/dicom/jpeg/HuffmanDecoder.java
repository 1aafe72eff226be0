package vestibule.dicom.jpeg;

import java.util.Arrays;

/**
 * A Huffman table arranged for decoding (T.81 F.2.2.3): codes up to {@link #WIDTH} bits by one look-up, longer ones by
 * comparing with the largest code of each length.
 *
 * <p>What a look-up gives, an <i>entry</i>, is the code's length (bits 0-4), the number of bits that follow it (5-8),
 * both together (9-13) and how far the symbol moves on in the block (14-21), or 0 where there is no short code or the
 * symbol has no meaning in a sequential scan.
 */
final class HuffmanDecoder {
    /** Bits of a look-up. */
    static final int WIDTH = 12;

    /** How far the end of a block moves on: further than any other symbol can. */
    static final int END_OF_BLOCK = 128;

    /** An end of block may come after 62 AC coefficients at most; after 63 there is none. */
    static final int LATEST_END = END_OF_BLOCK + 63;

    /** Where in a masked entry the extra bits of the first symbol stand, 24 bits. */
    static final int FIRST_EXTRA = 18;

    /** Where in a masked entry the extra bits of the second symbol stand, 10 bits. */
    static final int SECOND_EXTRA = 42;

    private static final int LARGEST_DC_CATEGORY = 11;
    private static final int LARGEST_AC_CATEGORY = 10;

    /** Which look-ups there are beside that of one symbol; each costs some thousand steps to arrange. */
    enum Arrangement {
        ONE,
        SEVERAL,
        PAIRS,
        SEVERAL_AND_PAIRS,
        MASKED
    }

    private final LongCodes longCodes;
    private final int[] entries;
    final int[] pairs;
    private final int[] several;
    private final long[] masked;

    private HuffmanDecoder(HuffmanTable table, boolean dc, Arrangement arrangement) {
        this.longCodes = new LongCodes(table);
        this.entries = new int[1 << WIDTH];
        int code = 0;
        int index = 0;
        for (int length = 1; length <= WIDTH; length++) {
            for (int number = 0; number < table.count(length); number++) {
                int first = code << (WIDTH - length);
                int entry = entry(length, table.symbol(index), dc);
                Arrays.fill(entries, first, first + (1 << (WIDTH - length)), entry);
                code++;
                index++;
            }
            code <<= 1;
        }
        several = arrangement == Arrangement.SEVERAL || arrangement == Arrangement.SEVERAL_AND_PAIRS
                ? joined()
                : new int[0];
        boolean inPairs = arrangement == Arrangement.PAIRS || arrangement == Arrangement.SEVERAL_AND_PAIRS;
        int[] both = inPairs || arrangement == Arrangement.MASKED ? paired() : new int[0];
        pairs = inPairs ? both : new int[0];
        masked = arrangement == Arrangement.MASKED ? masked(both) : new long[0];
    }

    static HuffmanDecoder dc(HuffmanTable table) {
        return new HuffmanDecoder(table, true, Arrangement.ONE);
    }

    static HuffmanDecoder ac(HuffmanTable table, Arrangement arrangement) {
        return new HuffmanDecoder(table, false, arrangement);
    }

    static int codeLength(int entry) {
        return entry & 0x1F;
    }

    static int extraBits(int entry) {
        return entry >> 5 & 0xF;
    }

    static int allBits(int entry) {
        return entry >> 9 & 0x1F;
    }

    static int advance(int entry) {
        return entry >> 14;
    }

    /** The entry for a DC code at the top of {@code bits}, of which at least 16 must be there; 0 if there is none. */
    int dcEntry(long bits) {
        int entry = entries[(int) (bits >>> (64 - WIDTH)) & (entries.length - 1)];
        return entry != 0 ? entry : longEntry(bits, true);
    }

    /** The entry for an AC code by look-up alone. */
    int shortEntry(long bits) {
        return entries[(int) (bits >>> (64 - WIDTH)) & (entries.length - 1)];
    }

    /** The entry for an AC code that the look-up does not have; 0 if there is none. */
    int longAcEntry(long bits) {
        return longEntry(bits, false);
    }

    private int longEntry(long bits, boolean dc) {
        int found = longCodes.symbolAndLength(bits);
        return found == 0 ? 0 : entry(found & 0x1F, found >> 5, dc);
    }

    /**
     * As many AC symbols as begin within the look-up: the bits they and their extra bits take (bits 0-4) and how far they
     * move on (from bit 5), up to and with an end of block; 0 where not even one is short enough or has a meaning.
     */
    int severalEntry(long bits) {
        return several[(int) (bits >>> (64 - WIDTH)) & (several.length - 1)];
    }

    /** The entry for an AC code, by look-up or not; 0 if there is none. */
    int acEntry(long bits) {
        int found = shortEntry(bits);
        return found != 0 ? found : longAcEntry(bits);
    }

    /** The value that stands after a code at the top of {@code bits}. */
    static int value(long bits, int entry) {
        int category = extraBits(entry);
        return extend((int) (bits >>> -allBits(entry)) & ((1 << category) - 1), category);
    }

    /** One AC symbol in the form of {@link #severalEntry}; 0 where there is none. */
    int oneEntry(long bits) {
        int entry = acEntry(bits);
        return allBits(entry) | advance(entry) << 5;
    }

    /**
     * One or two AC symbols that begin within the look-up: the bits of both with their extra bits (bits 0-4), how far the
     * first moves on (5-9) and how far both (10-17), the bits of the second (18-22), the number of extra bits of the first
     * (23-26) and of the second (27-30); 0 for none. Sixteen zeros are always alone, so that of two the first has a value,
     * and the second one too unless it ends the block.
     */
    int pairEntry(long bits) {
        return pairs[(int) (bits >>> (64 - WIDTH)) & (pairs.length - 1)];
    }

    /** How far the first symbol of a pair moves on. */
    static int firstMove(int pair) {
        return pair >> 5 & 0x1F;
    }

    /** How far both symbols move on, with the end of the block. */
    static int bothMove(int pair) {
        return pair >> 10 & 0xFF;
    }

    /** Whether one of its symbols at least has a value. */
    static boolean hasValues(int pair) {
        return valued(pair) != 0;
    }

    /** One if one of its symbols at least has a value, else 0. */
    static int valued(int pair) {
        return ((pair >> 23) + 0xFF) >> 8;
    }

    /** The number of extra bits of the first symbol of a pair. */
    static int firstExtra(int pair) {
        return pair >> 23 & 0xF;
    }

    /** The number of extra bits of its second symbol. */
    static int secondExtra(int pair) {
        return pair >> 27 & 0xF;
    }

    /** The bits of the second symbol with its extra bits. */
    static int secondBits(int pair) {
        return pair >> 18 & 0x1F;
    }

    /** Whether the second of two symbols would stand beyond the block; then only the first may be taken. */
    static boolean passes(int last) {
        return last > 64 && (last < END_OF_BLOCK || last > LATEST_END);
    }

    /** The value of the first symbol of a pair, 0 if it has none. */
    static int firstOf(long chunk, int pair) {
        int category = firstExtra(pair);
        return extend((int) (chunk >>> secondBits(pair)) & ((1 << category) - 1), category);
    }

    /**
     * The value of the second symbol of a pair, 0 if it has none.
     *
     * @param chunk all bits of the pair, at the low end
     */
    static int secondOf(long chunk, int pair) {
        int category = secondExtra(pair);
        return extend((int) chunk & ((1 << category) - 1), category);
    }

    /** One AC symbol in the form of {@link #pairEntry}; 0 where there is none. */
    int singleEntry(long bits) {
        int entry = acEntry(bits);
        return entry == 0 ? 0 : pair(entry, 0);
    }

    /**
     * One or two AC symbols that begin within the look-up, arranged for a copy: the bits of both with their extra bits (bits
     * 0-4), how far the first moves on (5-9) and how far both (10-17), and which of all those bits are the extra bits of the
     * first ({@link #FIRST_EXTRA}) and of the second ({@link #SECOND_EXTRA}); 0 for none.
     */
    long maskedEntry(long bits) {
        return masked[(int) (bits >>> (64 - WIDTH)) & (masked.length - 1)];
    }

    /** One AC symbol in the form of {@link #maskedEntry}; 0 where there is none. */
    long singleMaskedEntry(long bits) {
        return masked(singleEntry(bits));
    }

    private int[] paired() {
        int[] paired = new int[1 << WIDTH];
        for (int window = 0; window < paired.length; window++) {
            int first = entries[window];
            int used = allBits(first);
            int second = 0;
            if (extraBits(first) > 0 && used < WIDTH) {
                int next = entries[(window << used) & (paired.length - 1)];
                boolean fits = used + codeLength(next) <= WIDTH;
                second = fits && (extraBits(next) > 0 || advance(next) == END_OF_BLOCK) ? next : 0;
            }
            paired[window] = first == 0 ? 0 : pair(first, second);
        }
        return paired;
    }

    private static int pair(int first, int second) {
        int ofFirst = advance(first) == END_OF_BLOCK ? 0 : advance(first);
        return (allBits(first) + allBits(second))
                | ofFirst << 5
                | (advance(first) + advance(second)) << 10
                | allBits(second) << 18
                | extraBits(first) << 23
                | extraBits(second) << 27;
    }

    private static long[] masked(int[] pairs) {
        long[] masked = new long[pairs.length];
        for (int window = 0; window < masked.length; window++) {
            masked[window] = masked(pairs[window]);
        }
        return masked;
    }

    private static long masked(int pair) {
        long firstExtra = ((1L << firstExtra(pair)) - 1) << secondBits(pair);
        long secondExtra = (1L << secondExtra(pair)) - 1;
        return pair == 0 ? 0 : (pair & 0x3FFFF) | firstExtra << FIRST_EXTRA | secondExtra << SECOND_EXTRA;
    }

    private int[] joined() {
        int[] joined = new int[1 << WIDTH];
        for (int window = 0; window < joined.length; window++) {
            int used = 0;
            int moved = 0;
            int entry = entries[window];
            while (entry != 0 && used + codeLength(entry) <= WIDTH && moved < END_OF_BLOCK) {
                used += allBits(entry);
                moved += advance(entry);
                entry = used < WIDTH ? entries[(window << used) & (joined.length - 1)] : 0;
            }
            joined[window] = used | moved << 5;
        }
        return joined;
    }

    private static int entry(int length, int symbol, boolean dc) {
        if (dc) {
            return symbol > LARGEST_DC_CATEGORY ? 0 : length | symbol << 5 | (length + symbol) << 9 | 1 << 14;
        }
        int run = symbol >> 4;
        int category = symbol & 0xF;
        if (category > LARGEST_AC_CATEGORY || (category == 0 && run > 0 && run < 15)) {
            return 0;
        }
        int advance = symbol == 0 ? END_OF_BLOCK : run + 1;
        return length | category << 5 | (length + category) << 9 | advance << 14;
    }

    /** The value that {@code extra} bits stand for in a category (T.81 F.2.2.1, EXTEND). */
    static int extend(int extra, int category) {
        // Without a branch: the first bit is as often one as zero, and no processor guesses it
        int negative = (extra - (1 << category >> 1)) >> 31;
        return extra - (negative & ((1 << category) - 1));
    }
}
