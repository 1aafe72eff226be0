package vestibule.dicom.jpeg;

/** A Huffman table arranged for encoding (T.81 C.2): for each symbol its code times 32 plus the code's length. */
final class HuffmanCoder {
    private final int[] codes = new int[256];

    HuffmanCoder(HuffmanTable table) {
        int code = 0;
        int index = 0;
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            for (int number = 0; number < table.count(length); number++) {
                codes[table.symbol(index++)] = code++ << 5 | length;
            }
            code <<= 1;
        }
    }

    /** The code times 32 plus its length; 0 where the symbol has none. */
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
