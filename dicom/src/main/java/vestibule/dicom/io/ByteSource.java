package vestibule.dicom.io;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.data.Bulk;

/** Bytes with a position: a file read through a small buffer, or memory. */
final class ByteSource implements Closeable {

    private static final int BUFFER = 1 << 14;

    private final @Nullable Path file;
    private final @Nullable FileChannel channel;
    private final ByteBuffer buffer;
    private final Bulk memory;
    private final long size;
    private long bufferStart;

    private ByteSource(@Nullable Path file, @Nullable FileChannel channel, ByteBuffer buffer, Bulk memory, long size) {
        this.file = file;
        this.channel = channel;
        this.buffer = buffer;
        this.memory = memory;
        this.size = size;
    }

    static ByteSource of(Path file) throws IOException {
        FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
        return new ByteSource(file, channel, ByteBuffer.allocate(BUFFER).limit(0), Bulk.EMPTY, channel.size());
    }

    static ByteSource of(byte[] bytes) {
        return new ByteSource(null, null, ByteBuffer.wrap(bytes), Bulk.of(bytes), bytes.length);
    }

    long size() {
        return size;
    }

    long position() {
        return bufferStart + buffer.position();
    }

    void order(ByteOrder order) {
        buffer.order(order);
    }

    void seek(long position) {
        if (position >= bufferStart && position <= bufferStart + buffer.limit()) {
            buffer.position((int) (position - bufferStart));
        } else {
            bufferStart = position;
            buffer.position(0).limit(0);
        }
    }

    int unsignedShort() throws IOException {
        fill(2);
        return buffer.getShort() & 0xFFFF;
    }

    long unsignedInt() throws IOException {
        fill(4);
        return buffer.getInt() & 0xFFFF_FFFFL;
    }

    /** Bytes that the caller has checked to be there and to be few. */
    byte[] bytes(int count) throws IOException {
        byte[] bytes = new byte[count];
        int done = 0;
        while (done < count) {
            fill(1);
            int taken = Math.min(buffer.remaining(), count - done);
            buffer.get(bytes, done, taken);
            done += taken;
        }
        return bytes;
    }

    /** A range by reference: of the file, or of one copy of the memory. */
    Bulk bulk(long offset, long length) {
        if (file != null) {
            return Bulk.of(file, offset, length);
        }
        return memory.part(offset, length);
    }

    private void fill(int wanted) throws IOException {
        if (buffer.remaining() >= wanted) {
            return;
        }
        if (channel != null) {
            long next = position();
            buffer.compact();
            bufferStart = next;
            while (buffer.position() < wanted) {
                if (channel.read(buffer, bufferStart + buffer.position()) < 0) {
                    break;
                }
            }
            buffer.flip();
        }
        if (buffer.remaining() < wanted) {
            throw new EOFException();
        }
    }

    @Override
    public void close() throws IOException {
        if (channel != null) {
            channel.close();
        }
    }
}
