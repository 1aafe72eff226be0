package vestibule.dicom.jpeg;

import java.io.IOException;

/** Hands the blocks of a progressive picture, turned, to what counts or encodes them as baseline. */
final class ProgressiveEncoding implements ProgressiveSink {
    private final BlockEncoder encoder;
    private final ComponentCodes codes;
    private final long signs;
    private final int[] order;
    private final boolean exchangesAxes;

    ProgressiveEncoding(BlockTurn turn, BlockEncoder encoder, ComponentCodes codes) {
        this.encoder = encoder;
        this.codes = codes;
        this.signs = turn.signChanges();
        this.order = turn.order();
        this.exchangesAxes = turn.exchangesAxes();
    }

    @Override
    public void take(Blocks blocks, int index, ProgressiveBlock block) throws IOException {
        if (exchangesAxes || !codes.encoded(encoder, blocks, index, block, block.negative ^ signs)) {
            reorder(block);
            codes.take(encoder, blocks, index);
        }
    }

    private void reorder(ProgressiveBlock block) {
        int[] target = encoder.values;
        int[] magnitudes = block.magnitudes;
        int[] places = order;
        long negative = block.negative;
        long turned = 0;
        for (long rest = block.present; rest != 0; rest &= rest - 1) {
            int source = Long.numberOfTrailingZeros(rest);
            int place = places[source & 63];
            int magnitude = magnitudes[source & 63];
            int category = 32 - Integer.numberOfLeadingZeros(magnitude);
            int below = -(int) ((negative >>> source ^ signs >>> place) & 1);
            target[place & 63] = category << 16 | (magnitude ^ (below & (1 << category) - 1));
            turned |= 1L << place;
        }
        encoder.present = turned;
    }
}
