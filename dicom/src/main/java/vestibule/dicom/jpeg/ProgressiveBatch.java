package vestibule.dicom.jpeg;

/** Many blocks of one component of a progressive picture, with what all of its scans have said of them. */
final class ProgressiveBatch {
    private static final int SIZE = 256;

    private final ProgressiveBlock[] blocks = new ProgressiveBlock[SIZE];
    private final int[] indices = new int[SIZE];
    private int length;

    ProgressiveBatch() {
        for (int place = 0; place < SIZE; place++) {
            blocks[place] = new ProgressiveBlock();
        }
    }

    /** Keeps a block and gives away the one that lay in its place. */
    ProgressiveBlock exchange(ProgressiveBlock block, int index) {
        ProgressiveBlock other = blocks[length];
        blocks[length] = block;
        indices[length] = index;
        length++;
        return other;
    }

    boolean isFull() {
        return length == SIZE;
    }

    int length() {
        return length;
    }

    ProgressiveBlock block(int place) {
        return blocks[place];
    }

    /** Which block of its component it is. */
    int index(int place) {
        return indices[place];
    }

    void clear() {
        length = 0;
    }
}
