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
    private long bits;
    private long length;

    AcStore(long expectedBytes, long mostBytes) {
        this.mostBytes = Math.min(mostBytes, Integer.MAX_VALUE - 2L * ROOM);
        this.bytes = new byte[(int) Math.min(this.mostBytes, expectedBytes) + ROOM];
    }

    /** Makes room for one more block. */
    void ensure() throws IOException {
        if (length >>> 3 > bytes.length - ROOM / 2) {
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

    /** The last bits put down, lowest; those of the byte that is not full are among them. */
    long bits() {
        return bits;
    }

    /** How many bits have been put down. */
    long length() {
        return length;
    }

    void resume(long newBits, long newLength) {
        bits = newBits;
        length = newLength;
    }

    /** Where a block's bits lie: first bit and number of bits in one number. */
    static long reference(long from, long to) {
        return (from << LENGTH_BITS) | (to - from);
    }

    /** Brings the last bits into the bytes, so that they can be read. */
    void finish() {
        int count = (int) length & 7;
        EntropyInput.WORD.set(bytes, (int) (length >>> 3), count == 0 ? 0 : bits << -count);
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
