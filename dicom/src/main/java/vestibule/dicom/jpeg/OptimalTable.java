package vestibule.dicom.jpeg;

import java.util.Arrays;

/** The Huffman table with the fewest bits for given counts of symbols, no code above 16 bits (T.81 Annex K.2). */
final class OptimalTable {
    /** A symbol that is never sent takes the code of all ones, which must stay free. */
    private static final int RESERVED = 256;

    private static final int SYMBOLS = 257;

    private OptimalTable() {}

    static HuffmanTable of(int[] counts) {
        long[] frequency = new long[SYMBOLS];
        for (int symbol = 0; symbol < RESERVED; symbol++) {
            frequency[symbol] = counts[symbol];
        }
        frequency[RESERVED] = 1;
        int[] codeLengths = codeLengths(frequency);
        int[] perLength = shortened(codeLengths);
        return new HuffmanTable(perLength, symbolsByLength(codeLengths));
    }

    /** Figure K.1: joins the two rarest trees until one is left; of equals the one with the higher symbol. */
    private static int[] codeLengths(long[] frequency) {
        int[] lengths = new int[SYMBOLS];
        int[] next = new int[SYMBOLS];
        Arrays.fill(next, -1);
        while (true) {
            int first = rarest(frequency, -1);
            int second = rarest(frequency, first);
            if (second < 0) {
                return lengths;
            }
            frequency[first] += frequency[second];
            frequency[second] = 0;
            int last = deepen(first, lengths, next);
            next[last] = second;
            deepen(second, lengths, next);
        }
    }

    private static int deepen(int symbol, int[] lengths, int[] next) {
        int at = symbol;
        lengths[at]++;
        while (next[at] >= 0) {
            at = next[at];
            lengths[at]++;
        }
        return at;
    }

    private static int rarest(long[] frequency, int except) {
        int found = -1;
        for (int symbol = 0; symbol < SYMBOLS; symbol++) {
            boolean candidate = frequency[symbol] > 0 && symbol != except;
            if (candidate && (found < 0 || frequency[symbol] <= frequency[found])) {
                found = symbol;
            }
        }
        return found;
    }

    /** Figure K.3: moves pairs of codes above 16 bits up, then gives the reserved symbol's code back. */
    private static int[] shortened(int[] codeLengths) {
        int[] perLength = new int[SYMBOLS];
        for (int symbol = 0; symbol < SYMBOLS; symbol++) {
            if (codeLengths[symbol] > 0) {
                perLength[codeLengths[symbol]]++;
            }
        }
        for (int length = SYMBOLS - 1; length > HuffmanTable.LONGEST_CODE; length--) {
            while (perLength[length] > 0) {
                int shorter = length - 2;
                while (perLength[shorter] == 0) {
                    shorter--;
                }
                perLength[length] -= 2;
                perLength[length - 1]++;
                perLength[shorter + 1] += 2;
                perLength[shorter]--;
            }
        }
        int longest = HuffmanTable.LONGEST_CODE;
        while (perLength[longest] == 0) {
            longest--;
        }
        perLength[longest]--;
        return Arrays.copyOf(perLength, HuffmanTable.LONGEST_CODE + 1);
    }

    /** Figure K.4: the symbols by code length as first found, and by value within one length. */
    private static byte[] symbolsByLength(int[] codeLengths) {
        byte[] symbols = new byte[RESERVED];
        int count = 0;
        for (int length = 1; length < SYMBOLS; length++) {
            for (int symbol = 0; symbol < RESERVED; symbol++) {
                if (codeLengths[symbol] == length) {
                    symbols[count++] = (byte) symbol;
                }
            }
        }
        return Arrays.copyOf(symbols, count);
    }
}
