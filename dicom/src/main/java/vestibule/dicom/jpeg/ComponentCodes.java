package vestibule.dicom.jpeg;

import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** Either counts the AC symbols of blocks or encodes them, with the table slot that the block's component uses. */
final class ComponentCodes {
    private final int[] slotOfComponent;
    private final int[][] counts = new int[2][256];
    private final @Nullable HuffmanCoder[] coders;

    private ComponentCodes(int[] slotOfComponent, @Nullable HuffmanCoder[] coders) {
        this.slotOfComponent = slotOfComponent;
        this.coders = coders;
    }

    static ComponentCodes counting(int[] slotOfComponent) {
        return new ComponentCodes(slotOfComponent, new @Nullable HuffmanCoder[2]);
    }

    static ComponentCodes encoding(int[] slotOfComponent, @Nullable HuffmanTable[] tables) {
        @Nullable HuffmanCoder[] coders = new @Nullable HuffmanCoder[2];
        for (int slot = 0; slot < 2; slot++) {
            HuffmanTable table = tables[slot];
            coders[slot] = table == null ? null : new HuffmanCoder(table);
        }
        return new ComponentCodes(slotOfComponent, coders);
    }

    int[] counts(int slot) {
        return counts[slot];
    }

    /** Encodes a block whose coefficients keep their places; false where blocks are only counted. */
    boolean encoded(BlockEncoder encoder, Blocks blocks, int index, ProgressiveBlock block, long negative)
            throws IOException {
        HuffmanCoder coder = coders[slotOfComponent[blocks.component()]];
        if (coder == null) {
            return false;
        }
        blocks.ac[index] = encoder.encode(coder, block.magnitudes, block.present, negative);
        return true;
    }

    void take(BlockEncoder encoder, Blocks blocks, int index) throws IOException {
        int slot = slotOfComponent[blocks.component()];
        HuffmanCoder coder = coders[slot];
        if (coder == null) {
            encoder.count(counts[slot]);
        } else {
            blocks.ac[index] = encoder.encode(coder);
        }
    }
}
