package vestibule.dicom.jpeg;

import java.util.Arrays;

/**
 * A Huffman table arranged for decoding one symbol at a time, whatever the symbol means (T.81 F.2.2.3). Small, because
 * the scans of a progressive picture are read side by side and their tables with them.
 */
final class SymbolDecoder {
    private static final int WIDTH = 10;

    private final LongCodes longCodes;
    private final short[] found = new short[1 << WIDTH];

    SymbolDecoder(HuffmanTable table) {
        this.longCodes = new LongCodes(table);
        int code = 0;
        int index = 0;
        for (int length = 1; length <= WIDTH; length++) {
            for (int number = 0; number < table.count(length); number++) {
                int first = code << (WIDTH - length);
                int end = first + (1 << (WIDTH - length));
                Arrays.fill(found, first, end, (short) (table.symbol(index) << 5 | length));
                code++;
                index++;
            }
            code <<= 1;
        }
    }

    /** The symbol at the top of {@code bits}, times 32, plus its code's length; 0 where the bits are no code. */
    int symbolAndLength(long bits) {
        int known = found[(int) (bits >>> (64 - WIDTH)) & (found.length - 1)];
        return known != 0 ? known : longCodes.symbolAndLength(bits);
    }
}
