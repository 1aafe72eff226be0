package vestibule.dicom.jpeg;

import java.io.IOException;

/** Has the blocks of one component of a progressive picture, turned, counted or encoded as baseline while others are read. */
final class ProgressiveEncoding implements ProgressiveSink {
    /** As many as this may wait for another thread while it still reads the colour differences: 32,768 blocks, 9 MB. */
    private static final int MOST_BATCHES = 128;

    private final BlockRelay<ProgressiveBatch> relay;
    private ProgressiveBatch batch;

    private final BlockEncoder encoder;
    private final ComponentCodes codes;
    private final long signs;
    private final int[] order;
    private final boolean exchangesAxes;
    private final Blocks blocks;

    ProgressiveEncoding(BlockTurn turn, BlockEncoder encoder, ComponentCodes codes, Blocks blocks) {
        this.relay = new BlockRelay<>(MOST_BATCHES, ProgressiveBatch::new, this::encode);
        this.batch = relay.batch();
        this.blocks = blocks;
        this.encoder = encoder;
        this.codes = codes;
        this.signs = turn.signChanges();
        this.order = turn.order();
        this.exchangesAxes = turn.exchangesAxes();
    }

    @Override
    public ProgressiveBlock take(Blocks component, int index, ProgressiveBlock block) throws IOException {
        ProgressiveBlock other = batch.exchange(block, index);
        if (batch.isFull()) {
            relay.hand(batch);
            batch = relay.batch();
            batch.clear();
        }
        return other;
    }

    @Override
    public void finish() throws IOException {
        relay.hand(batch);
        relay.finish();
    }

    private void encode(ProgressiveBatch taken) throws IOException {
        for (int place = 0; place < taken.length(); place++) {
            ProgressiveBlock block = taken.block(place);
            int index = taken.index(place);
            if (exchangesAxes || !codes.encoded(encoder, blocks, index, block, block.negative ^ signs)) {
                reorder(block);
                codes.take(encoder, blocks, index);
            }
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
