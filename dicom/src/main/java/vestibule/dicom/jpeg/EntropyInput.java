package vestibule.dicom.jpeg;

import java.io.IOException;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.SeekableByteChannel;

/**
 * The entropy-coded data of one scan without its stuffed bytes, one restart interval after the other (T.81 F.2.2.5).
 *
 * <p>Decoders keep {@code bits}, {@code count} and {@code position} in local variables while they read a block, and call
 * {@link #ensure} before each block; then a block's bits can be fetched without looking at the end. Past the end of an
 * interval there are zeros, and the next {@link #ensure} or {@link #endInterval} notices.
 */
final class EntropyInput {
    /** Eight bytes at once, most significant first. */
    static final VarHandle WORD = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.BIG_ENDIAN);

    /** A block has at most 64 codes of 16 bits with 15 more bits each, 248 bytes. */
    private static final int LONGEST_BLOCK = 256;

    private static final int SLACK = 2 * LONGEST_BLOCK;
    private static final int RAW = 1 << 16;
    private static final int CLEAN = 1 << 16;

    /** The data without stuffing; valid up to the limit, zeros for some bytes after it. */
    final byte[] clean;

    /** The next bits, the first of them topmost; bits below {@code count} may be there already and are right. */
    long bits;

    /** How many of {@code bits} are counted. */
    int count;

    /** Index in {@code clean} of the first byte that is not counted. */
    int position;

    private final SeekableByteChannel channel;
    private final ByteRange data;
    private final int scanNumber;
    private final byte[] raw;
    private final ByteBuffer rawBuffer;
    private long rawOffset;
    private int rawNext;
    private int rawLimit;
    private int limit;
    private int safe;
    private boolean intervalComplete;
    private boolean restartRead;
    private long surplusBytes;

    EntropyInput(SeekableByteChannel channel, ByteRange data, int scanNumber) throws IOException {
        this.channel = channel;
        this.data = data;
        this.scanNumber = scanNumber;
        this.raw = new byte[(int) Math.max(1, Math.min(RAW, data.length()))];
        this.rawBuffer = ByteBuffer.wrap(raw);
        this.clean = new byte[(int) Math.min(CLEAN, data.length() + 1) + SLACK];
        this.rawOffset = data.offset();
        beginInterval();
    }

    /** Makes sure that a whole block can be read without a look at the end. */
    void ensure() throws IOException {
        if (position > safe) {
            refresh();
        }
    }

    /** Fetches bits until at least 32 are counted. */
    void refill() {
        if (count < 32) {
            bits |= (long) WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
        }
    }

    /** The next bits, 1 to 16 of them. */
    int take(int number) {
        if (count < 32) {
            refill();
        }
        int taken = (int) (bits >>> -number);
        skip(number);
        return taken;
    }

    /** Leaves out bits that were looked at. */
    void skip(int number) {
        bits <<= number;
        count -= number;
    }

    private void refresh() throws IOException {
        if (intervalComplete) {
            checkOverrun();
            return;
        }
        System.arraycopy(clean, position, clean, 0, limit - position);
        limit -= position;
        position = 0;
        fill();
    }

    /** Closes an interval after its last unit: all its bits must have been there; whole bytes left over are counted. */
    void endInterval() throws IOException {
        checkOverrun();
        long left = 8L * (limit - position) + count;
        while (!intervalComplete) {
            limit = 0;
            position = 0;
            fill();
            left += 8L * limit;
        }
        surplusBytes += left / 8;
    }

    private void checkOverrun() throws JpegFormatException {
        if (8L * position - count > 8L * limit) {
            throw corrupt("the data of scan " + scanNumber
                    + " ends in the middle of a block; a part of the picture is missing.");
        }
    }

    /** Goes on to the data after a restart marker. */
    void nextInterval() throws IOException {
        if (!restartRead) {
            throw corrupt("scan " + scanNumber + " ends where a restart marker was expected.");
        }
        beginInterval();
    }

    private void beginInterval() throws IOException {
        bits = 0;
        count = 0;
        position = 0;
        limit = 0;
        intervalComplete = false;
        restartRead = false;
        fill();
    }

    /** Which scan of the stream, from 1. */
    int scanNumber() {
        return scanNumber;
    }

    /** How many whole bytes were left over at the ends of intervals. */
    long surplusBytes() {
        return surplusBytes;
    }

    /** A finding in this scan's data. */
    JpegFormatException corrupt(String finding) {
        return new JpegFormatException(data.offset(), finding);
    }

    private void fill() throws IOException {
        int room = clean.length - SLACK;
        while (limit < room && !intervalComplete) {
            if (rawNext == rawLimit && !readRaw()) {
                intervalComplete = true;
                break;
            }
            int end = Math.min(rawLimit, rawNext + room - limit);
            int at = rawNext;
            while (at < end && raw[at] != (byte) 0xFF) {
                at++;
            }
            System.arraycopy(raw, rawNext, clean, limit, at - rawNext);
            limit += at - rawNext;
            rawNext = at;
            if (at < end) {
                unstuff();
            }
        }
        for (int at = limit; at < limit + SLACK && at < clean.length; at++) {
            clean[at] = 0;
        }
        safe = limit - LONGEST_BLOCK - Long.BYTES;
    }

    private void unstuff() throws IOException {
        int code = 0xFF;
        while (code == 0xFF) {
            if (rawNext == rawLimit && !readRaw()) {
                intervalComplete = true;
                return;
            }
            code = raw[rawNext++] & 0xFF;
        }
        if (code == 0) {
            clean[limit++] = (byte) 0xFF;
        } else if (Marker.isRestart(code)) {
            intervalComplete = true;
            restartRead = true;
        } else {
            throw corrupt("scan " + scanNumber + " holds the marker " + Marker.name(code)
                    + " where there was none before; the file changed while it was read.");
        }
    }

    private boolean readRaw() throws IOException {
        rawOffset += rawLimit;
        rawNext = 0;
        rawLimit = 0;
        long left = data.end() - rawOffset;
        if (left <= 0) {
            return false;
        }
        rawBuffer.clear();
        rawBuffer.limit((int) Math.min(left, raw.length));
        int got;
        // The scans of a progressive picture are read side by side, from one channel
        synchronized (channel) {
            channel.position(rawOffset);
            got = channel.read(rawBuffer);
        }
        rawLimit = Math.max(0, got);
        return rawLimit > 0;
    }
}
