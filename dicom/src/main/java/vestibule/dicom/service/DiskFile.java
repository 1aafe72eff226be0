package vestibule.dicom.service;

import com.sun.nio.file.ExtendedOpenOption;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A file that is to be on the disk when its last byte has come. Its blocks go to the disk as they fill, past the cache of the system where
 * the file system allows it, so that nothing but the last block is left to be forced; meanwhile the next bytes wait in the socket.
 */
final class DiskFile implements WritableByteChannel {

    private static final Logger LOG = LoggerFactory.getLogger(DiskFile.class);

    /** What disks and file systems of today want positions and lengths to be multiples of; those that want more get bytes through the cache. */
    private static final int BLOCK = 4096;

    private static final int GATHERED = 1 << 20;

    private final FileChannel plain;
    private final ByteBuffer buffer;
    private @Nullable FileChannel direct;
    private long written;

    /**
     * @param file an empty file
     * @param buffer where bytes gather, from {@link #buffer}
     */
    DiskFile(Path file, ByteBuffer buffer) throws IOException {
        this.plain = FileChannel.open(file, StandardOpenOption.WRITE);
        this.buffer = buffer.clear();
        this.direct = pastTheCache(file);
    }

    /** A buffer where bytes gather. */
    static ByteBuffer buffer() {
        return ByteBuffer.allocateDirect(GATHERED + BLOCK)
                .alignedSlice(BLOCK)
                .limit(GATHERED)
                .slice();
    }

    private static @Nullable FileChannel pastTheCache(Path file) {
        try {
            return FileChannel.open(file, StandardOpenOption.WRITE, ExtendedOpenOption.DIRECT);
        } catch (IOException | UnsupportedOperationException e) {
            LOG.debug("{} is written through the cache", file, e);
            return null;
        }
    }

    /** How many bytes it has so far. */
    long length() {
        return written + buffer.position();
    }

    @Override
    public int write(ByteBuffer source) throws IOException {
        int count = source.remaining();
        while (source.hasRemaining()) {
            int part = Math.min(source.remaining(), buffer.remaining());
            buffer.put(source.slice(source.position(), part));
            source.position(source.position() + part);
            if (!buffer.hasRemaining()) {
                flush(buffer.position());
            }
        }
        return count;
    }

    /** Writes the first bytes of the buffer, whole blocks but for the end of the file. */
    private void flush(int count) throws IOException {
        int whole = count / BLOCK * BLOCK;
        buffer.flip().limit(whole);
        drain(direct);
        buffer.limit(count);
        drain(plain);
        buffer.clear();
    }

    private void drain(@Nullable FileChannel channel) throws IOException {
        while (channel != null && buffer.hasRemaining()) {
            try {
                written += channel.write(buffer, written);
            } catch (IOException e) {
                if (channel == plain) {
                    throw e;
                }
                LOG.debug("what the disk does not take directly goes through the cache", e);
                channel.close();
                direct = null;
                return;
            }
        }
    }

    /** Forces the file to the disk; it is whole then. */
    void force() throws IOException {
        flush(buffer.position());
        plain.force(true);
    }

    @Override
    public boolean isOpen() {
        return plain.isOpen();
    }

    @Override
    public void close() throws IOException {
        try (FileChannel first = direct;
                FileChannel second = plain) {
            LOG.trace("{} and {} are closed", first, second);
        }
    }
}
