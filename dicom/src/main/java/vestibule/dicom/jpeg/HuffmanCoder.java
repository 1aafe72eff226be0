package vestibule.dicom.jpeg;

/**
 * A Huffman table arranged for encoding (T.81 C.2). For each symbol there is its code with room below for the bits that
 * follow it, as many as the lower half of the symbol says, and in the lowest five bits the length of both.
 */
final class HuffmanCoder {
    /** With more bits behind its code a symbol has no place here; a baseline picture has none of them (T.81 F.1.2). */
    private static final int MOST_FOLLOWING = 11;

    /** What is left of a word when seven bits of the byte before are in it, rounded down to whole bytes. */
    private static final int MOST_BITS = 56;

    private static final int SIXTEEN_ZEROS = 0xF0;

    private final int[] codes = new int[256];

    /**
     * For each run of up to 62 zeros times 16 plus a category the codes it takes, those for sixteen zeros among them, with room
     * below, times 64, plus the length of all; 0 where it has no code or they are too long.
     */
    final long[] runs = new long[64 << 4];

    HuffmanCoder(HuffmanTable table) {
        int code = 0;
        int index = 0;
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            for (int number = 0; number < table.count(length); number++) {
                int symbol = table.symbol(index++);
                int following = symbol & 0xF;
                codes[symbol] = following > MOST_FOLLOWING ? 0 : (code << following) << 5 | (length + following);
                code++;
            }
            code <<= 1;
        }
        for (int run = 0; run < 64; run++) {
            for (int category = 0; category <= MOST_FOLLOWING; category++) {
                runs[run << 4 | category] = run(run, category);
            }
        }
    }

    private long run(int run, int category) {
        int last = codes[(run & 15) << 4 | category];
        int zeros = codes[SIXTEEN_ZEROS];
        int length = (run >> 4) * (zeros & 0x1F) + (last & 0x1F);
        if (last == 0 || (run > 15 && zeros == 0) || length > MOST_BITS) {
            return 0;
        }
        long code = 0;
        for (int step = 0; step < run >> 4; step++) {
            code = code << (zeros & 0x1F) | zeros >>> 5;
        }
        return (code << (last & 0x1F) | last >>> 5) << 6 | length;
    }

    /** The code with room for what follows it, times 32, plus the length of both, without a sign; 0 where the symbol has none. */
    int code(int symbol) {
        return codes[symbol];
    }

    /** Whether every symbol that was counted has a code. */
    boolean covers(int[] counts) {
        for (int symbol = 0; symbol < 256; symbol++) {
            if (counts[symbol] > 0 && codes[symbol] == 0) {
                return false;
            }
        }
        return true;
    }
}
