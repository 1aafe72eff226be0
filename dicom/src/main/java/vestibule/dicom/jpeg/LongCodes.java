package vestibule.dicom.jpeg;

/** Codes of any length found by comparing with the largest code of each length (T.81 F.2.2.3), for those no look-up has. */
final class LongCodes {
    private final HuffmanTable table;

    /** For each length the first code after those of that length, left-justified in 16 bits. */
    private final int[] codesEnd = new int[HuffmanTable.LONGEST_CODE + 1];

    /** For each length what to add to a code to get the index of its symbol. */
    private final int[] indexOffset = new int[HuffmanTable.LONGEST_CODE + 1];

    LongCodes(HuffmanTable table) {
        this.table = table;
        int code = 0;
        int index = 0;
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            indexOffset[length] = index - code;
            code += table.count(length);
            index += table.count(length);
            codesEnd[length] = code << (HuffmanTable.LONGEST_CODE - length);
            code <<= 1;
        }
    }

    /** The symbol at the top of {@code bits}, times 32, plus its code's length; 0 where the bits are no code. */
    int symbolAndLength(long bits) {
        int window = (int) (bits >>> 48);
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            if (window < codesEnd[length]) {
                int index = (window >> (HuffmanTable.LONGEST_CODE - length)) + indexOffset[length];
                return table.symbol(index) << 5 | length;
            }
        }
        return 0;
    }
}
