package vestibule.dicom.jpeg;

/** The typical Huffman tables of T.81 Annex K.3, which have a code for every symbol of an 8-bit sequential picture. */
final class StandardTables {
    /** Table K.3. */
    static final HuffmanTable DC_LUMINANCE =
            table("00 01 05 01 01 01 01 01 01 00 00 00 00 00 00 00", "00 01 02 03 04 05 06 07 08 09 0A 0B");

    /** Table K.4. */
    static final HuffmanTable DC_CHROMINANCE =
            table("00 03 01 01 01 01 01 01 01 01 01 00 00 00 00 00", "00 01 02 03 04 05 06 07 08 09 0A 0B");

    /** Table K.5. */
    static final HuffmanTable AC_LUMINANCE = table(
            "00 02 01 03 03 02 04 03 05 05 04 04 00 00 01 7D",
            "01 02 03 00 04 11 05 12 21 31 41 06 13 51 61 07 22 71 14 32 81 91 A1 08 23 42 B1 C1 15 52 D1 F0 24 33 62"
                    + " 72 82 09 0A 16 17 18 19 1A 25 26 27 28 29 2A 34 35 36 37 38 39 3A 43 44 45 46 47 48 49 4A 53 54"
                    + " 55 56 57 58 59 5A 63 64 65 66 67 68 69 6A 73 74 75 76 77 78 79 7A 83 84 85 86 87 88 89 8A 92 93"
                    + " 94 95 96 97 98 99 9A A2 A3 A4 A5 A6 A7 A8 A9 AA B2 B3 B4 B5 B6 B7 B8 B9 BA C2 C3 C4 C5 C6 C7 C8"
                    + " C9 CA D2 D3 D4 D5 D6 D7 D8 D9 DA E1 E2 E3 E4 E5 E6 E7 E8 E9 EA F1 F2 F3 F4 F5 F6 F7 F8 F9 FA");

    /** Table K.6. */
    static final HuffmanTable AC_CHROMINANCE = table(
            "00 02 01 02 04 04 03 04 07 05 04 04 00 01 02 77",
            "00 01 02 03 11 04 05 21 31 06 12 41 51 07 61 71 13 22 32 81 08 14 42 91 A1 B1 C1 09 23 33 52 F0 15 62 72"
                    + " D1 0A 16 24 34 E1 25 F1 17 18 19 1A 26 27 28 29 2A 35 36 37 38 39 3A 43 44 45 46 47 48 49 4A 53"
                    + " 54 55 56 57 58 59 5A 63 64 65 66 67 68 69 6A 73 74 75 76 77 78 79 7A 82 83 84 85 86 87 88 89 8A"
                    + " 92 93 94 95 96 97 98 99 9A A2 A3 A4 A5 A6 A7 A8 A9 AA B2 B3 B4 B5 B6 B7 B8 B9 BA C2 C3 C4 C5 C6"
                    + " C7 C8 C9 CA D2 D3 D4 D5 D6 D7 D8 D9 DA E2 E3 E4 E5 E6 E7 E8 E9 EA F2 F3 F4 F5 F6 F7 F8 F9 FA");

    private StandardTables() {}

    private static HuffmanTable table(String counts, String symbols) {
        int[] perLength = new int[HuffmanTable.LONGEST_CODE + 1];
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            perLength[length] = hexadecimal(counts, length - 1);
        }
        byte[] values = new byte[(symbols.length() + 1) / 3];
        for (int index = 0; index < values.length; index++) {
            values[index] = (byte) hexadecimal(symbols, index);
        }
        return new HuffmanTable(perLength, values);
    }

    private static int hexadecimal(String text, int index) {
        return Integer.parseInt(text, 3 * index, 3 * index + 2, 16);
    }
}
