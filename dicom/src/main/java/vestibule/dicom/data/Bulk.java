package vestibule.dicom.data;

import java.io.ByteArrayInputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A run of bytes that is named rather than held: pieces of memory and ranges of files, one after the other. A photograph of any
 * size is carried, written and sent through one of these without entering the heap.
 */
public final class Bulk {

    /** No bytes. */
    public static final Bulk EMPTY = new Bulk(List.of());

    private static final int CHUNK = 1 << 16;

    private sealed interface Piece {
        long length();

        InputStream open() throws IOException;

        void transferTo(WritableByteChannel target) throws IOException;

        Piece part(long offset, long length);
    }

    private final List<Piece> pieces;
    private final long length;

    private Bulk(List<Piece> pieces) {
        this.pieces = List.copyOf(pieces);
        this.length = pieces.stream().mapToLong(Piece::length).sum();
    }

    /** A copy of these bytes. */
    public static Bulk of(byte[] bytes) {
        return bytes.length == 0 ? EMPTY : new Bulk(List.of(new InMemory(bytes.clone(), 0, bytes.length)));
    }

    /**
     * A range of a file, which must stay as it is for as long as this is used.
     *
     * @param file the file
     * @param offset where the range starts, in bytes from the beginning
     * @param length how many bytes it has
     */
    public static Bulk of(Path file, long offset, long length) {
        if (offset < 0 || length < 0) {
            throw new IllegalArgumentException("offset %d, length %d".formatted(offset, length));
        }
        return length == 0 ? EMPTY : new Bulk(List.of(new InFile(file, offset, length)));
    }

    /** These runs one after the other, as one. */
    public static Bulk concat(List<Bulk> parts) {
        List<Piece> pieces = new ArrayList<>();
        parts.forEach(part -> pieces.addAll(part.pieces));
        return pieces.isEmpty() ? EMPTY : new Bulk(pieces);
    }

    /** How many bytes there are. */
    public long length() {
        return length;
    }

    /**
     * Part of this run.
     *
     * @throws IndexOutOfBoundsException if the part reaches beyond it
     */
    public Bulk part(long offset, long partLength) {
        if (offset < 0 || partLength < 0 || offset > length - partLength) {
            throw new IndexOutOfBoundsException("part %d+%d of %d bytes".formatted(offset, partLength, length));
        }
        List<Piece> found = new ArrayList<>();
        long start = offset;
        long left = partLength;
        for (Piece piece : pieces) {
            if (left > 0 && start < piece.length()) {
                long taken = Math.min(left, piece.length() - start);
                found.add(piece.part(start, taken));
                left -= taken;
                start = 0;
            } else {
                start -= Math.min(start, piece.length());
            }
        }
        return found.isEmpty() ? EMPTY : new Bulk(found);
    }

    /**
     * All bytes in memory.
     *
     * @param most the most bytes the caller is ready to hold
     * @throws IOException if there are more, or a file cannot be read or has become shorter
     */
    public byte[] bytes(long most) throws IOException {
        if (length > most) {
            throw new IOException("a run of %d bytes where at most %d are taken into memory".formatted(length, most));
        }
        try (InputStream in = open()) {
            return in.readNBytes((int) length);
        }
    }

    /** A stream over the bytes, to be closed by the caller; it fails if a file has become shorter. */
    public InputStream open() throws IOException {
        List<InputStream> opened = new ArrayList<>();
        for (Piece piece : pieces) {
            opened.add(new LateStream(piece));
        }
        return new SequenceInputStream(Collections.enumeration(opened));
    }

    /**
     * Writes all bytes to a channel; where both are files or sockets of the system, without copying them through the heap.
     *
     * @throws EOFException if a file has become shorter since this was made
     */
    public void transferTo(WritableByteChannel target) throws IOException {
        for (Piece piece : pieces) {
            piece.transferTo(target);
        }
    }

    /** A channel to read from at any position, to be closed by the caller; it fails if a file has become shorter. */
    public SeekableByteChannel channel() {
        return new BulkChannel(this);
    }

    /** Hands the bytes out a portion at a time, each where it is wanted; to be closed by the caller. */
    public Portions portions() {
        return new Portions(pieces, length);
    }

    /** Equal if both name the same pieces; bytes are not compared. */
    @Override
    public boolean equals(Object other) {
        return other instanceof Bulk bulk && pieces.equals(bulk.pieces);
    }

    @Override
    public int hashCode() {
        return pieces.hashCode();
    }

    @Override
    public String toString() {
        return length + " bytes";
    }

    private static final class InMemory implements Piece {
        private final byte[] bytes;
        private final int offset;
        private final int length;

        InMemory(byte[] bytes, int offset, int length) {
            this.bytes = bytes;
            this.offset = offset;
            this.length = length;
        }

        @Override
        public long length() {
            return length;
        }

        @Override
        public InputStream open() {
            return new ByteArrayInputStream(bytes, offset, length);
        }

        @Override
        public void transferTo(WritableByteChannel target) throws IOException {
            ByteBuffer buffer = ByteBuffer.wrap(bytes, offset, length);
            while (buffer.hasRemaining()) {
                target.write(buffer);
            }
        }

        @Override
        public Piece part(long start, long partLength) {
            return new InMemory(bytes, offset + (int) start, (int) partLength);
        }

        @Override
        public boolean equals(Object other) {
            return other instanceof InMemory memory
                    && ByteBuffer.wrap(bytes, offset, length)
                            .equals(ByteBuffer.wrap(memory.bytes, memory.offset, memory.length));
        }

        @Override
        public int hashCode() {
            return ByteBuffer.wrap(bytes, offset, length).hashCode();
        }
    }

    private record InFile(Path file, long offset, long length) implements Piece {

        @Override
        public InputStream open() throws IOException {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
            channel.position(offset);
            return new BoundedStream(Channels.newInputStream(channel), length, file);
        }

        @Override
        public void transferTo(WritableByteChannel target) throws IOException {
            try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
                long done = 0;
                while (done < length) {
                    long moved = channel.transferTo(offset + done, length - done, target);
                    if (moved <= 0 && offset + done >= channel.size()) {
                        throw new EOFException(
                                "%s ended %d bytes early while it was being copied".formatted(file, length - done));
                    }
                    done += moved;
                }
            }
        }

        @Override
        public Piece part(long start, long partLength) {
            return new InFile(file, offset + start, partLength);
        }
    }

    /** The bytes of a run, in order, in portions; one file is open at a time. Used by one thread. */
    public static final class Portions implements Closeable {
        private final List<Piece> all;
        private final long length;
        private Iterator<Piece> pieces;
        private long remaining;
        private @Nullable Piece piece;
        private long doneInPiece;
        private @Nullable Path openFile;
        private @Nullable FileChannel channel;

        private Portions(List<Piece> pieces, long length) {
            this.all = pieces;
            this.length = length;
            this.pieces = pieces.iterator();
            this.remaining = length;
        }

        /** Goes on at another place of the run, with the same file open where that place is in it. */
        void moveTo(long position) {
            pieces = all.iterator();
            piece = null;
            doneInPiece = 0;
            remaining = length - position;
            long before = position;
            while (before > 0) {
                Piece next = pieces.next();
                piece = next;
                doneInPiece = Math.min(before, next.length());
                before -= doneInPiece;
            }
        }

        /** How many bytes are still to come. */
        public long remaining() {
            return remaining;
        }

        /**
         * Fills a buffer as far as there are bytes.
         *
         * @throws EOFException if a file has become shorter
         */
        public void read(ByteBuffer target) throws IOException {
            while (remaining > 0 && target.hasRemaining()) {
                Piece from = piece();
                int wanted = (int) Math.min(target.remaining(), from.length() - doneInPiece);
                if (from instanceof InFile inFile) {
                    int limit = target.limit();
                    target.limit(target.position() + wanted);
                    int count = channel(inFile.file()).read(target, inFile.offset() + doneInPiece);
                    target.limit(limit);
                    if (count < 0) {
                        throw endedEarly(inFile);
                    }
                    done(count);
                } else {
                    InMemory inMemory = (InMemory) from;
                    target.put(inMemory.bytes, inMemory.offset + (int) doneInPiece, wanted);
                    done(wanted);
                }
            }
        }

        private EOFException endedEarly(InFile inFile) {
            return new EOFException("%s ended %d bytes early while it was being read"
                    .formatted(inFile.file(), inFile.length() - doneInPiece));
        }

        private long done(long count) {
            doneInPiece += count;
            remaining -= count;
            return count;
        }

        private Piece piece() {
            Piece current = piece;
            if (current == null || doneInPiece == current.length()) {
                current = pieces.next();
                piece = current;
                doneInPiece = 0;
            }
            return current;
        }

        private FileChannel channel(Path file) throws IOException {
            FileChannel current = channel;
            if (current == null || !file.equals(openFile)) {
                close();
                current = FileChannel.open(file, StandardOpenOption.READ);
                channel = current;
                openFile = file;
            }
            return current;
        }

        @Override
        public void close() throws IOException {
            FileChannel current = channel;
            if (current != null) {
                channel = null;
                current.close();
            }
        }
    }

    /** Opens its piece at the first read, so that a run of many pieces holds one open file at a time. */
    private static final class LateStream extends InputStream {
        private final Piece piece;
        private InputStream opened = InputStream.nullInputStream();
        private boolean started;

        LateStream(Piece piece) {
            this.piece = piece;
        }

        private InputStream stream() throws IOException {
            if (!started) {
                opened = piece.open();
                started = true;
            }
            return opened;
        }

        @Override
        public int read() throws IOException {
            return stream().read();
        }

        @Override
        public int read(byte[] target, int offset, int wanted) throws IOException {
            return stream().read(target, offset, wanted);
        }

        @Override
        public void close() throws IOException {
            opened.close();
        }
    }

    private static final class BoundedStream extends InputStream {
        private final InputStream source;
        private final Path file;
        private long left;

        BoundedStream(InputStream source, long length, Path file) {
            this.source = source;
            this.left = length;
            this.file = file;
        }

        @Override
        public int read() throws IOException {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
        }

        @Override
        public int read(byte[] target, int offset, int wanted) throws IOException {
            if (left == 0) {
                return -1;
            }
            int count = source.read(target, offset, (int) Math.min(Math.min(wanted, CHUNK), left));
            if (count < 0) {
                throw new EOFException("%s ended %d bytes early while it was being read".formatted(file, left));
            }
            left -= count;
            return count;
        }

        @Override
        public void close() throws IOException {
            source.close();
        }
    }
}
