package vestibule.dicom.jpeg;

import java.io.IOException;
import java.io.OutputStream;

/**
 * Writes bytes, and entropy-coded bits with a zero stuffed after each FF (T.81 F.1.2.3), and counts them. Bits are laid down without
 * stuffing first and stuffed many at a time, so that no branch depends on how they fall into words.
 */
final class BitOutput {
    private static final int SIZE = 1 << 16;
    private static final int MOST_BITS = 56;

    /** A call may lay down as much as one block has, 252 bytes, and write some bytes beyond it. */
    private static final int ROOM = 512;

    private static final long ONES = 0x0101010101010101L;
    private static final long TOPS = 0x8080808080808080L;

    private final OutputStream target;
    private final byte[] plain = new byte[SIZE + ROOM];
    private final byte[] buffer = new byte[2 * (SIZE + ROOM) + Long.BYTES];
    private int plainNext;
    private int next;
    private long bits;
    private int count;
    private long written;

    BitOutput(OutputStream target) {
        this.target = target;
    }

    /** Appends the low {@code number} bits, 1 to 56; those above must be zero. */
    void put(long value, int number) throws IOException {
        if (plainNext > SIZE) {
            stuff();
        }
        bits = bits << number | value;
        count += number;
        EntropyInput.WORD.set(plain, plainNext, bits << -count);
        plainNext += count >>> 3;
        count &= 7;
    }

    /**
     * Appends a code and then bits that lie in an array with eight bytes to spare.
     *
     * @param code the low {@code codeBits} bits, up to 56; those above must be zero
     * @param from the first of the bits in the array, by its number from the start
     * @param number how many of them, up to 2,016
     */
    void put(long code, int codeBits, byte[] source, long from, int number) throws IOException {
        if (plainNext > SIZE) {
            stuff();
        }
        byte[] to = plain;
        long out = bits << codeBits | code;
        int outCount = count + codeBits;
        EntropyInput.WORD.set(to, plainNext, out << 1 << (63 - outCount));
        int outNext = plainNext + (outCount >>> 3);
        outCount &= 7;
        long at = from;
        int left = number;
        // Most blocks have up to twice as many bits as go at once; a part of none changes nothing
        do {
            for (int turn = 0; turn < 2; turn++) {
                int part = Math.min(left, MOST_BITS);
                long word = (long) EntropyInput.WORD.get(source, (int) (at >>> 3)) << (at & 7);
                out = out << part | word >>> 1 >>> (63 - part);
                outCount += part;
                EntropyInput.WORD.set(to, outNext, out << 1 << (63 - outCount));
                outNext += outCount >>> 3;
                outCount &= 7;
                at += part;
                left -= part;
            }
        } while (left > 0);
        bits = out;
        count = outCount;
        plainNext = outNext;
    }

    /** Moves the bytes that are whole to the buffer, eight at once where none of them is FF. */
    private void stuff() throws IOException {
        if (next + 2 * plainNext > buffer.length - Long.BYTES) {
            flushBuffer();
        }
        byte[] from = plain;
        byte[] to = buffer;
        int out = next;
        int at = 0;
        while (at + Long.BYTES <= plainNext) {
            long word = (long) EntropyInput.WORD.get(from, at);
            EntropyInput.WORD.set(to, out, word);
            if (((~word - ONES) & word & TOPS) == 0) {
                at += Long.BYTES;
                out += Long.BYTES;
            } else {
                while (from[at] != (byte) 0xFF) {
                    at++;
                    out++;
                }
                at++;
                out++;
                to[out++] = 0;
            }
        }
        while (at < plainNext) {
            byte value = from[at++];
            to[out++] = value;
            if (value == (byte) 0xFF) {
                to[out++] = 0;
            }
        }
        plain[0] = plain[plainNext];
        plainNext = 0;
        next = out;
    }

    /** Fills the last byte with ones, as the end of an interval wants it. */
    void alignWithOnes() throws IOException {
        int padding = -count & 7;
        if (padding > 0) {
            put((1L << padding) - 1, padding);
        }
        stuff();
        bits = 0;
        count = 0;
    }

    /** One byte as it is, outside entropy-coded data. */
    void writeByte(int value) throws IOException {
        if (next > SIZE) {
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
