package vestibule.dicom.data;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;
import org.jspecify.annotations.Nullable;

/** A run of bytes as a channel to read from, at any position; one portion is open at a time. */
final class BulkChannel implements SeekableByteChannel {

    private final Bulk bulk;
    private Bulk.@Nullable Portions portions;
    private long portionsAt;
    private long position;
    private boolean closed;

    BulkChannel(Bulk bulk) {
        this.bulk = bulk;
    }

    @Override
    public int read(ByteBuffer target) throws IOException {
        if (closed) {
            throw new ClosedChannelException();
        }
        if (position >= bulk.length()) {
            return -1;
        }
        Bulk.Portions from = portions;
        if (from == null) {
            from = bulk.portions();
            portions = from;
        }
        if (portionsAt != position) {
            from.moveTo(position);
        }
        int before = target.position();
        from.read(target);
        int count = target.position() - before;
        position += count;
        portionsAt = position;
        return count;
    }

    private void release() throws IOException {
        Bulk.Portions open = portions;
        portions = null;
        if (open != null) {
            open.close();
        }
    }

    @Override
    public long position() {
        return position;
    }

    @Override
    public SeekableByteChannel position(long newPosition) {
        if (newPosition < 0) {
            throw new IllegalArgumentException("position " + newPosition);
        }
        position = newPosition;
        return this;
    }

    @Override
    public long size() {
        return bulk.length();
    }

    @Override
    public boolean isOpen() {
        return !closed;
    }

    @Override
    public void close() throws IOException {
        closed = true;
        release();
    }

    @Override
    public int write(ByteBuffer source) {
        throw new NonWritableChannelException();
    }

    @Override
    public SeekableByteChannel truncate(long size) {
        throw new NonWritableChannelException();
    }
}
