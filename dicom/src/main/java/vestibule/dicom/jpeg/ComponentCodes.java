package vestibule.dicom.jpeg;

import java.io.IOException;
import org.jspecify.annotations.Nullable;

/**
 * Either counts the AC symbols of blocks or encodes them, with the table slot that the block's component uses. Several
 * threads may do so at once if each has components of its own.
 */
final class ComponentCodes {
    private final int[] slotOfComponent;
    private final int[][] counts;
    private final @Nullable HuffmanCoder[] coders;

    private ComponentCodes(int[] slotOfComponent, @Nullable HuffmanCoder[] coders) {
        this.slotOfComponent = slotOfComponent;
        this.coders = coders;
        this.counts = new int[slotOfComponent.length][256];
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

    /** What the components that use a slot have counted. */
    int[] counts(int slot) {
        int[] sums = new int[256];
        for (int component = 0; component < counts.length; component++) {
            for (int symbol = 0; slotOfComponent[component] == slot && symbol < sums.length; symbol++) {
                sums[symbol] += counts[component][symbol];
            }
        }
        return sums;
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
            encoder.count(counts[blocks.component()]);
        } else {
            blocks.ac[index] = encoder.encode(coder);
        }
    }
}
