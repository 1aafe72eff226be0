package vestibule.conformance.fault;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.ReadableByteChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import vestibule.conformance.fault.DiskOperation.Kind;
import vestibule.conformance.fault.DiskOperation.Written;

/** An open file of a {@link FaultDisk}. */
final class FaultChannel extends FileChannel {

    private static final int PORTION = 1 << 16;

    private final FaultDisk disk;
    private final Path path;
    private final FileChannel real;
    private final boolean appends;

    FaultChannel(FaultDisk disk, Path path, FileChannel real, boolean appends) {
        this.disk = disk;
        this.path = path;
        this.real = real;
        this.appends = appends;
    }

    private long counted(long bytes) {
        disk.hasRead(bytes);
        return bytes;
    }

    @Override
    public int read(ByteBuffer target) throws IOException {
        disk.stillThere(path);
        return (int) counted(real.read(target));
    }

    @Override
    public long read(ByteBuffer[] targets, int offset, int length) throws IOException {
        disk.stillThere(path);
        return counted(real.read(targets, offset, length));
    }

    @Override
    public int read(ByteBuffer target, long position) throws IOException {
        disk.stillThere(path);
        return (int) counted(real.read(target, position));
    }

    private void writing(long position, ByteBuffer source) throws IOException {
        disk.before(Kind.WRITE, path, new Written(position, source.asReadOnlyBuffer()));
    }

    @Override
    public int write(ByteBuffer source) throws IOException {
        writing(appends ? real.size() : real.position(), source);
        return real.write(source);
    }

    @Override
    public long write(ByteBuffer[] sources, int offset, int length) throws IOException {
        long count = 0;
        for (int i = offset; i < offset + length; i++) {
            count += write(sources[i]);
        }
        return count;
    }

    @Override
    public int write(ByteBuffer source, long position) throws IOException {
        writing(position, source);
        return real.write(source, position);
    }

    @Override
    public long position() throws IOException {
        return real.position();
    }

    @Override
    public FileChannel position(long newPosition) throws IOException {
        real.position(newPosition);
        return this;
    }

    @Override
    public long size() throws IOException {
        disk.stillThere(path);
        return real.size();
    }

    @Override
    public FileChannel truncate(long size) throws IOException {
        disk.before(Kind.TRUNCATE, path, null);
        real.truncate(size);
        return this;
    }

    @Override
    public void force(boolean metaData) throws IOException {
        if (Files.isDirectory(path)) {
            disk.before(Kind.FORCE_FOLDER, path, null);
            disk.model().forcedFolder(path);
        } else {
            disk.before(Kind.FORCE, path, null);
            disk.model().forced(path);
        }
    }

    /** Portion by portion, so that a card can be pulled out in the middle. */
    @Override
    public long transferTo(long position, long count, WritableByteChannel target) throws IOException {
        long done = 0;
        ByteBuffer portion = ByteBuffer.allocate(PORTION);
        while (done < count) {
            portion.clear().limit((int) Math.min(PORTION, count - done));
            int read = read(portion, position + done);
            if (read < 0) {
                break;
            }
            portion.flip();
            while (portion.hasRemaining()) {
                target.write(portion);
            }
            done += read;
        }
        return done;
    }

    @Override
    public long transferFrom(ReadableByteChannel source, long position, long count) throws IOException {
        long done = 0;
        ByteBuffer portion = ByteBuffer.allocate(PORTION);
        while (done < count) {
            portion.clear().limit((int) Math.min(PORTION, count - done));
            int read = source.read(portion);
            if (read <= 0) {
                break;
            }
            portion.flip();
            while (portion.hasRemaining()) {
                done += write(portion, position + done);
            }
        }
        return done;
    }

    @Override
    public MappedByteBuffer map(MapMode mode, long position, long size) throws IOException {
        disk.stillThere(path);
        if (mode != MapMode.READ_ONLY) {
            throw new UnsupportedOperationException("what is written through a mapping cannot be watched");
        }
        return real.map(mode, position, size);
    }

    @Override
    public FileLock lock(long position, long size, boolean shared) throws IOException {
        return real.lock(position, size, shared);
    }

    @Override
    public @Nullable FileLock tryLock(long position, long size, boolean shared) throws IOException {
        return real.tryLock(position, size, shared);
    }

    @Override
    protected void implCloseChannel() throws IOException {
        real.close();
    }
}
