package vestibule.dicom.jpeg;

import org.jspecify.annotations.Nullable;

/** The tables in force while a stream is walked (T.81 B.2.4); a scan keeps the picture of them at its header. */
final class TableState {
    private final @Nullable QuantizationTable[] quantization = new @Nullable QuantizationTable[4];
    private final @Nullable HuffmanTable[] dc = new @Nullable HuffmanTable[4];
    private final @Nullable HuffmanTable[] ac = new @Nullable HuffmanTable[4];

    private TableState(TableState other) {
        System.arraycopy(other.quantization, 0, quantization, 0, 4);
        System.arraycopy(other.dc, 0, dc, 0, 4);
        System.arraycopy(other.ac, 0, ac, 0, 4);
    }

    TableState() {}

    TableState copy() {
        return new TableState(this);
    }

    @Nullable QuantizationTable quantization(int selector) {
        return quantization[selector];
    }

    @Nullable HuffmanTable dc(int selector) {
        return dc[selector];
    }

    @Nullable HuffmanTable ac(int selector) {
        return ac[selector];
    }

    /** Reads a DQT payload that begins at {@code offset} of the stream. */
    void defineQuantization(byte[] payload, long offset) throws JpegFormatException {
        int at = 0;
        while (at < payload.length) {
            int precision = (payload[at] & 0xFF) >> 4;
            int selector = payload[at] & 0xF;
            if (precision > 1 || selector > 3) {
                throw new JpegFormatException(
                        offset + at,
                        "a quantization table has precision " + precision + " and destination " + selector
                                + ", where precision 0 or 1 and destination 0 to 3 were expected (T.81 B.2.4.1).");
            }
            int size = 64 << precision;
            if (payload.length - at - 1 < size) {
                throw new JpegFormatException(
                        offset + at,
                        "a quantization table has " + (payload.length - at - 1) + " bytes, where " + size
                                + " were expected.");
            }
            quantization[selector] = quantizationTable(payload, at + 1, precision == 1, offset);
            at += 1 + size;
        }
    }

    private static QuantizationTable quantizationTable(byte[] payload, int at, boolean wide, long offset)
            throws JpegFormatException {
        int[] elements = new int[64];
        for (int index = 0; index < 64; index++) {
            elements[index] = wide
                    ? (payload[at + 2 * index] & 0xFF) << 8 | (payload[at + 2 * index + 1] & 0xFF)
                    : payload[at + index] & 0xFF;
            if (elements[index] == 0) {
                throw new JpegFormatException(
                        offset + at,
                        "element " + index + " of a quantization table is 0, where 1 or more was expected.");
            }
        }
        return new QuantizationTable(elements, wide);
    }

    /** Reads a DHT payload that begins at {@code offset} of the stream. */
    void defineHuffman(byte[] payload, long offset) throws JpegFormatException {
        int at = 0;
        while (at < payload.length) {
            int tableClass = (payload[at] & 0xFF) >> 4;
            int selector = payload[at] & 0xF;
            if (tableClass > 1 || selector > 3) {
                throw new JpegFormatException(
                        offset + at,
                        "a Huffman table has class " + tableClass + " and destination " + selector
                                + ", where class 0 or 1 and destination 0 to 3 were expected (T.81 B.2.4.2).");
            }
            HuffmanTable table = huffmanTable(payload, at + 1, offset + at);
            if (tableClass == 0 && table.largestSymbol() > 16) {
                throw new JpegFormatException(
                        offset + at,
                        "a DC Huffman table has the category " + table.largestSymbol()
                                + ", where at most 16 was expected (T.81 F.1.2.1, H.1.2.2).");
            }
            (tableClass == 0 ? dc : ac)[selector] = table;
            at += 1 + HuffmanTable.LONGEST_CODE + table.size();
        }
    }

    private static HuffmanTable huffmanTable(byte[] payload, int at, long offset) throws JpegFormatException {
        if (payload.length - at < HuffmanTable.LONGEST_CODE) {
            throw new JpegFormatException(offset, "a Huffman table ends before its 16 counts do.");
        }
        int[] counts = new int[HuffmanTable.LONGEST_CODE + 1];
        int sum = 0;
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            counts[length] = payload[at + length - 1] & 0xFF;
            sum += counts[length];
        }
        int symbols = at + HuffmanTable.LONGEST_CODE;
        if (sum == 0 || sum > 256 || sum > payload.length - symbols) {
            throw new JpegFormatException(
                    offset,
                    "a Huffman table announces " + sum + " codes and " + (payload.length - symbols)
                            + " bytes follow, where 1 to 256 codes of one byte each were expected.");
        }
        if (!HuffmanTable.fits(counts)) {
            throw new JpegFormatException(
                    offset, "a Huffman table has more codes of some length than there is room for (T.81 C.2).");
        }
        byte[] values = new byte[sum];
        System.arraycopy(payload, symbols, values, 0, sum);
        return new HuffmanTable(counts, values);
    }
}
