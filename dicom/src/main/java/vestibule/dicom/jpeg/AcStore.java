package vestibule.dicom.jpeg;

import java.io.IOException;
import java.util.Arrays;

/**
 * The AC codes of many blocks, already in the form they are to be written in, as one string of bits; and for each
 * block of a component where its part lies. So a picture can be laid down anew without its coefficients in memory.
 */
final class AcStore {
    private static final int LENGTH_BITS = 12;
    private static final int ROOM = 1024;

    private final long mostBytes;
    private byte[] bytes;
    private int next;
    private long bits;
    private int count;

    AcStore(long expectedBytes, long mostBytes) {
        this.mostBytes = Math.min(mostBytes, Integer.MAX_VALUE - 2L * ROOM);
        this.bytes = new byte[(int) Math.min(this.mostBytes, expectedBytes) + ROOM];
    }

    /** Makes room for one more block. */
    void ensure() throws IOException {
        if (next > bytes.length - ROOM / 2) {
            if (bytes.length > mostBytes) {
                throw new JpegFormatException(
                        0, "begin more than " + mostBytes + " bytes of coefficients, the limit for one picture.");
            }
            bytes = Arrays.copyOf(bytes, (int) Math.min(mostBytes + ROOM, bytes.length * 3L / 2 + ROOM));
        }
    }

    byte[] bytes() {
        return bytes;
    }

    int next() {
        return next;
    }

    long bits() {
        return bits;
    }

    int count() {
        return count;
    }

    void resume(int newNext, long newBits, int newCount) {
        next = newNext;
        bits = newBits;
        count = newCount;
    }

    long bitPosition() {
        return 8L * next + count;
    }

    /** Where a block's bits lie: first bit and number of bits in one number. */
    static long reference(long from, long to) {
        return (from << LENGTH_BITS) | (to - from);
    }

    /** Brings the last bits into the bytes, so that they can be read. */
    void finish() {
        EntropyInput.WORD.set(bytes, next, count == 0 ? 0 : bits << (64 - count));
    }

    /** Number of the first bit that a reference names. */
    static long from(long reference) {
        return reference >>> LENGTH_BITS;
    }

    /** How many bits a reference names. */
    static int length(long reference) {
        return (int) reference & ((1 << LENGTH_BITS) - 1);
    }
}
