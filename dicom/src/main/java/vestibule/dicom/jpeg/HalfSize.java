package vestibule.dicom.jpeg;

/**
 * A component at half its size, each block of 8 by 8 samples as one of 4 by 4: the inverse transform of the sixteen lowest frequencies
 * (T.81 A.3.3 with four points instead of eight), which is a mean over pairs of samples without what would alias.
 */
final class HalfSize {
    /** Samples of a block across and down. */
    static final int EDGE = 4;

    /** For each zigzag index the place among the sixteen that count, row times 4 plus column; 16 for the others. */
    static final byte[] PLACE = places();

    /** Samples are coded from -128 to 127 (T.81 A.3.1); the half rounds. */
    private static final float MIDDLE = 128.5f;

    /** cos(π/8) and cos(3π/8) by the factor of the transform's AC terms, the square root of a half. */
    private static final float SLOW = (float) (Math.cos(Math.PI / 8) * Math.sqrt(0.5));

    private static final float FAST = (float) (Math.cos(3 * Math.PI / 8) * Math.sqrt(0.5));

    private final int stride;
    private final byte[] samples;

    /** The coefficients of one block as they are multiplied by the quantization steps; the last place takes what does not count. */
    final float[] low = new float[EDGE * EDGE + 1];

    HalfSize(Plane plane) {
        stride = EDGE * plane.blocksWide();
        samples = new byte[Math.multiplyExact(stride, EDGE * plane.blocksHigh())];
    }

    private static byte[] places() {
        byte[] places = new byte[64];
        for (int index = 0; index < 64; index++) {
            int row = Zigzag.place(index) >> 3;
            int column = Zigzag.place(index) & 7;
            places[index] = (byte) (row < EDGE && column < EDGE ? EDGE * row + column : EDGE * EDGE);
        }
        return places;
    }

    byte[] samples() {
        return samples;
    }

    int stride() {
        return stride;
    }

    /** Puts the block whose coefficients are in {@link #low} where it belongs, and forgets them. */
    void put(int column, int row) {
        float[] block = low;
        // DC is eight times the mean of 64 samples and has to be four times that of 16
        for (int x = 0; x < EDGE; x++) {
            transform(block, x, EDGE, 0.5f);
        }
        int target = EDGE * (row * stride + column);
        for (int y = 0; y < EDGE; y++) {
            transform(block, EDGE * y, 1, 1);
            for (int x = 0; x < EDGE; x++) {
                int sample = (int) (block[EDGE * y + x] + MIDDLE);
                samples[target + x] = (byte) (sample < 0 ? 0 : Math.min(sample, 255));
            }
            target += stride;
        }
        java.util.Arrays.fill(block, 0);
    }

    /** Four points in place. */
    private static void transform(float[] block, int from, int step, float factor) {
        float first = block[from];
        float second = block[from + step];
        float third = block[from + 2 * step];
        float fourth = block[from + 3 * step];
        float even = 0.5f * (first + third) * factor;
        float odd = 0.5f * (first - third) * factor;
        float outer = (SLOW * second + FAST * fourth) * factor;
        float inner = (FAST * second - SLOW * fourth) * factor;
        block[from] = even + outer;
        block[from + step] = odd + inner;
        block[from + 2 * step] = odd - inner;
        block[from + 3 * step] = even - outer;
    }
}
