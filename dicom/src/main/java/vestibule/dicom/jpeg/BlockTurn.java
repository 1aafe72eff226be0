package vestibule.dicom.jpeg;

/**
 * What a turn does inside a block: which zigzag index goes where, and which signs change afterwards.
 *
 * @param exchangesAxes whether rows and columns of the block change places
 * @param signChanges the indices of the outcome whose sign changes, as bits
 */
record BlockTurn(boolean exchangesAxes, long signChanges) {
    static BlockTurn of(Turn turn) {
        long signs = (turn.reversesColumns() ? Zigzag.oddColumns() : 0) ^ (turn.reversesRows() ? Zigzag.oddRows() : 0);
        return new BlockTurn(turn.exchangesAxes(), signs);
    }

    /** For each zigzag index of the source that of the outcome. */
    int[] order() {
        int[] order = new int[64];
        for (int index = 0; index < 64; index++) {
            order[index] = exchangesAxes ? Zigzag.transposed(index) : index;
        }
        return order;
    }
}
