package vestibule.dicom.jpeg;

import java.io.IOException;
import java.io.OutputStream;

/** Writes bytes, and entropy-coded bits with a zero stuffed after each FF (T.81 F.1.2.3), and counts them. */
final class BitOutput {
    private static final int SIZE = 1 << 16;
    private static final long ONES = 0x0101010101010101L;
    private static final long TOPS = 0x8080808080808080L;

    private final OutputStream target;
    private final byte[] buffer = new byte[SIZE];
    private int next;
    private long bits;
    private int count;
    private long written;

    BitOutput(OutputStream target) {
        this.target = target;
    }

    /** Appends the low {@code number} bits, 1 to 56; those above must be zero. */
    void put(long value, int number) throws IOException {
        int free = 64 - count;
        if (number < free) {
            bits = bits << number | value;
            count += number;
        } else {
            count = number - free;
            word((bits << free) | (value >>> count));
            bits = value;
        }
    }

    private void word(long word) throws IOException {
        if (next > SIZE - 16) {
            flushBuffer();
        }
        long inverse = ~word;
        if (((inverse - ONES) & word & TOPS) == 0) {
            EntropyInput.WORD.set(buffer, next, word);
            next += 8;
        } else {
            for (int shift = 56; shift >= 0; shift -= 8) {
                stuffed((int) (word >>> shift));
            }
        }
    }

    private void stuffed(int value) {
        buffer[next++] = (byte) value;
        if ((byte) value == (byte) 0xFF) {
            buffer[next++] = 0;
        }
    }

    /** Fills the last byte with ones, as the end of an interval wants it. */
    void alignWithOnes() throws IOException {
        if (next > SIZE - 16) {
            flushBuffer();
        }
        int padding = -count & 7;
        if (padding > 0) {
            put((1 << padding) - 1L, padding);
        }
        for (int shift = count - 8; shift >= 0; shift -= 8) {
            stuffed((int) (bits >>> shift));
        }
        count = 0;
        bits = 0;
    }

    /** One byte as it is, outside entropy-coded data. */
    void writeByte(int value) throws IOException {
        if (next > SIZE - 16) {
            flushBuffer();
        }
        buffer[next++] = (byte) value;
    }

    void writeShort(int value) throws IOException {
        writeByte(value >> 8);
        writeByte(value);
    }

    void write(byte[] values) throws IOException {
        for (byte value : values) {
            writeByte(value);
        }
    }

    /** Hands everything to the target; returns how many bytes there were in all. */
    long finish() throws IOException {
        flushBuffer();
        target.flush();
        return written;
    }

    private void flushBuffer() throws IOException {
        target.write(buffer, 0, next);
        written += next;
        next = 0;
    }
}
