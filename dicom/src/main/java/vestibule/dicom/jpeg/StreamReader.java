package vestibule.dicom.jpeg;

import java.io.IOException;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.SeekableByteChannel;

/** Reads a channel forward through a small window; jumps cost nothing until the next byte is wanted. */
final class StreamReader {
    private static final int WINDOW = 1 << 16;
    private static final VarHandle EIGHT = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final long LOW_BITS = 0x0101_0101_0101_0101L;
    private static final long HIGH_BITS = 0x8080_8080_8080_8080L;

    private final SeekableByteChannel channel;
    private final long length;
    private final byte[] window;
    private final ByteBuffer target;
    private long windowStart;
    private int limit;
    private int next;

    StreamReader(SeekableByteChannel channel) throws IOException {
        this.channel = channel;
        this.length = channel.size();
        this.window = new byte[(int) Math.max(1, Math.min(WINDOW, length))];
        this.target = ByteBuffer.wrap(window);
    }

    long length() {
        return length;
    }

    /** Offset of the byte the next read gives. */
    long offset() {
        return windowStart + next;
    }

    void seek(long offset) {
        if (offset >= windowStart && offset <= windowStart + limit) {
            next = (int) (offset - windowStart);
        } else {
            windowStart = offset;
            limit = 0;
            next = 0;
        }
    }

    /** The next byte, 0 to 255, or -1 at the end. */
    int read() throws IOException {
        if (next == limit && !fill()) {
            return -1;
        }
        return window[next++] & 0xFF;
    }

    /** Moves to the next FF at or after the offset; false when the stream ends before one. */
    boolean seekMarkerPrefix() throws IOException {
        while (true) {
            next = prefix(window, next, limit);
            if (next < limit) {
                return true;
            }
            if (!fill()) {
                return false;
            }
        }
    }

    /** Where the next FF stands, or the end; eight bytes are looked at together, for most of a photograph passes through here. */
    private static int prefix(byte[] bytes, int from, int end) {
        int at = from;
        while (at <= end - Long.BYTES) {
            // the bits that are 0 in every FF; the lowest byte of them that is wholly 0 leaves its highest bit
            long others = ~(long) EIGHT.get(bytes, at);
            long found = (others - LOW_BITS) & ~others & HIGH_BITS;
            if (found != 0) {
                return at + (Long.numberOfTrailingZeros(found) >> 3);
            }
            at += Long.BYTES;
        }
        while (at < end && bytes[at] != (byte) 0xFF) {
            at++;
        }
        return at;
    }

    /** As many bytes as asked for, of a range that is known to lie inside the stream. */
    byte[] bytes(long offset, int count) throws IOException {
        seek(offset);
        byte[] bytes = new byte[count];
        int done = 0;
        while (done < count) {
            if (next == limit && !fill()) {
                throw new JpegFormatException(offset(), "the file became shorter while it was read.");
            }
            int part = Math.min(limit - next, count - done);
            System.arraycopy(window, next, bytes, done, part);
            next += part;
            done += part;
        }
        return bytes;
    }

    private boolean fill() throws IOException {
        windowStart += limit;
        limit = 0;
        next = 0;
        if (windowStart >= length) {
            return false;
        }
        target.clear();
        channel.position(windowStart);
        int got = channel.read(target);
        limit = Math.max(0, got);
        return limit > 0;
    }
}
