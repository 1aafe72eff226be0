package vestibule.dicom.jpeg;

import java.io.IOException;

/** Hands the coefficients of a picture, block by block and turned, to what counts or encodes them. */
final class CoefficientEncoding {
    private static final int LARGEST_CATEGORY = 10;

    private final Coefficients coefficients;
    private final BlockTurn turn;
    private final BlockEncoder encoder;
    private final int[] order;

    CoefficientEncoding(Coefficients coefficients, BlockTurn turn, BlockEncoder encoder) {
        this.coefficients = coefficients;
        this.turn = turn;
        this.encoder = encoder;
        this.order = turn.order();
    }

    void run(Blocks[] components, ComponentCodes codes) throws IOException {
        for (Blocks blocks : components) {
            short[] values = coefficients.values(blocks.component());
            long[] present = coefficients.present(blocks.component());
            for (int row = 0; row < blocks.plane.blocksHigh(); row++) {
                for (int column = 0; column < blocks.plane.blocksWide(); column++) {
                    int index = blocks.index(column, row);
                    if (index >= 0) {
                        blocks.dc[index] = values[64 * index];
                        load(values, 64 * index, present[index], blocks, index);
                        codes.take(encoder, blocks, index);
                    }
                }
            }
        }
    }

    private void load(short[] values, int at, long present, Blocks blocks, int index) throws JpegFormatException {
        long turned = 0;
        long signs = turn.signChanges();
        int[] target = encoder.values;
        for (long rest = present; rest != 0; rest &= rest - 1) {
            int source = Long.numberOfTrailingZeros(rest);
            int place = order[source];
            int value = values[at + source];
            int signed = (signs >>> place & 1) == 0 ? value : -value;
            int category = 32 - Integer.numberOfLeadingZeros(Math.abs(signed));
            if (category > LARGEST_CATEGORY) {
                throw new JpegFormatException(
                        0,
                        "begins a picture with a coefficient of " + category + " bits in " + blocks.where(index)
                                + ", where a baseline picture has 10 at most; it cannot be coded again.");
            }
            target[place] = category << 16 | ((signed < 0 ? signed - 1 : signed) & ((1 << category) - 1));
            turned |= 1L << place;
        }
        encoder.present = turned;
    }
}
