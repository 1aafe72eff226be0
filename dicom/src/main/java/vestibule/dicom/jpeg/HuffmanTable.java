package vestibule.dicom.jpeg;

import java.util.Arrays;

/** A Huffman table as a DHT segment lists it: how many codes of each length, and their symbols (T.81 B.2.4.2). */
final class HuffmanTable {
    static final int LONGEST_CODE = 16;

    private final int[] counts;
    private final byte[] symbols;

    /** Takes {@code counts[1..16]} and as many symbols as they sum to; the caller has checked that the codes fit. */
    HuffmanTable(int[] counts, byte[] symbols) {
        this.counts = counts;
        this.symbols = symbols;
    }

    int count(int codeLength) {
        return counts[codeLength];
    }

    int size() {
        return symbols.length;
    }

    int symbol(int index) {
        return symbols[index] & 0xFF;
    }

    int largestSymbol() {
        int largest = 0;
        for (byte symbol : symbols) {
            largest = Math.max(largest, symbol & 0xFF);
        }
        return largest;
    }

    boolean sameCodes(HuffmanTable other) {
        return Arrays.equals(counts, other.counts) && Arrays.equals(symbols, other.symbols);
    }

    /**
     * Whether the counts leave room for a prefix code of which no word is all ones (T.81 C.2, and the note that an
     * all-ones word is kept free so that fill bits cannot be taken for one).
     */
    static boolean fits(int[] counts) {
        int code = 0;
        for (int length = 1; length <= LONGEST_CODE; length++) {
            code += counts[length];
            if (counts[length] > 0 && code >= 1 << length) {
                return false;
            }
            code <<= 1;
        }
        return true;
    }
}
