package vestibule.dicom.jpeg;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/** Where the n-th coefficient stands that is still zero: a run of zeros then needs no walk over the block. */
final class ZeroPlaces {
    /** What stands for a place beyond the last. */
    static final int NONE = 64;

    /** Runs are of 15 at most, so that many places beyond the last may be asked for. */
    private static final int BEYOND = 16;

    private static final VarHandle WORD = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final long EACH = 0x0101010101010101L;

    /** For each byte the numbers of its ones, the first lowest, eight bits each. */
    private static final long[] ONES = ones();

    /** The places in their order, {@link #NONE} after the last. */
    final byte[] places = new byte[64 + BEYOND];

    /** Notes the places of the ones in {@code zeros}. */
    void set(long zeros) {
        byte[] target = places;
        int next = 0;
        for (int base = 0; base < 64; base += 8) {
            int part = (int) (zeros >>> base) & 0xFF;
            WORD.set(target, next, ONES[part] + base * EACH);
            next += Integer.bitCount(part);
        }
        WORD.set(target, next, NONE * EACH);
        WORD.set(target, next + 8, NONE * EACH);
    }

    private static long[] ones() {
        long[] ones = new long[256];
        for (int part = 0; part < ones.length; part++) {
            int next = 0;
            for (int bit = 0; bit < 8; bit++) {
                if ((part >> bit & 1) != 0) {
                    ones[part] |= (long) bit << next;
                    next += 8;
                }
            }
        }
        return ones;
    }
}
