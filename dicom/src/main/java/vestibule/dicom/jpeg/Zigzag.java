package vestibule.dicom.jpeg;

/** The zigzag order of a block's coefficients (T.81 Figure A.6) and what turning a block does in it. */
final class Zigzag {
    /** For each zigzag index the place in the block, row times 8 plus column. */
    private static final int[] PLACE = places();

    /** For each zigzag index the zigzag index of the mirrored place across the main diagonal. */
    private static final int[] TRANSPOSED = transposed();

    private Zigzag() {}

    /** The place of a zigzag index in the block, row times 8 plus column. */
    static int place(int index) {
        return PLACE[index];
    }

    static int transposed(int index) {
        return TRANSPOSED[index];
    }

    /** A set of zigzag indices as bits: those whose column (horizontal frequency) is odd. */
    static long oddColumns() {
        long set = 0;
        for (int index = 0; index < 64; index++) {
            set |= (PLACE[index] & 1L) << index;
        }
        return set;
    }

    /** A set of zigzag indices as bits: those whose row (vertical frequency) is odd. */
    static long oddRows() {
        long set = 0;
        for (int index = 0; index < 64; index++) {
            set |= (PLACE[index] >> 3 & 1L) << index;
        }
        return set;
    }

    private static int[] places() {
        int[] places = new int[64];
        int row = 0;
        int column = 0;
        for (int index = 0; index < 64; index++) {
            places[index] = 8 * row + column;
            boolean upwards = (row + column) % 2 == 0;
            if (upwards ? column == 7 : row == 7) {
                row += upwards ? 1 : 0;
                column += upwards ? 0 : 1;
            } else if (upwards) {
                column++;
                row = Math.max(0, row - 1);
            } else {
                row++;
                column = Math.max(0, column - 1);
            }
        }
        return places;
    }

    private static int[] transposed() {
        int[] indexOfPlace = new int[64];
        for (int index = 0; index < 64; index++) {
            indexOfPlace[PLACE[index]] = index;
        }
        int[] transposed = new int[64];
        for (int index = 0; index < 64; index++) {
            transposed[index] = indexOfPlace[(PLACE[index] & 7) * 8 + (PLACE[index] >> 3)];
        }
        return transposed;
    }
}
