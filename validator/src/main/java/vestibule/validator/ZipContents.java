package vestibule.validator;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/**
 * The objects in a ZIP file, by name. Each entry is copied to a temporary file of a name of ours, judged and deleted; its own name is
 * shown in reports and never used as a path. What would take too much memory, room or time is refused with a sentence.
 */
final class ZipContents {

    /** The most entries; a card of 128 GB holds fewer photographs of 1 MB. */
    static final int MOST_ENTRIES = 100_000;
    /** The longest directory of entries, which is held in memory. */
    private static final long LONGEST_DIRECTORY = 32L << 20;
    /** The longest entry: no DICOM object with a stream that is judged comes near. */
    static final long LONGEST_ENTRY = 1L << 30;
    /** The most bytes of all entries together. */
    private static final long MOST_BYTES = 64L << 30;
    /** How many times longer than in the file an entry may become; photographs are about as long, empty pixels are a few hundred times. */
    static final int MOST_INFLATION = 500;

    private static final int INFLATION_FREE = 1 << 20;
    private static final int END_RECORD = 22;
    private static final int LONGEST_COMMENT = 0xFFFF;
    private static final int LOCATOR = 20;

    /** A limit that was reached; the message says which, and what to do. */
    private static final class RefusedException extends IOException {
        private static final long serialVersionUID = 1L;

        RefusedException(String sentence) {
            super(sentence);
        }
    }

    private final Path zip;
    private final Batch batch;
    private long written;

    ZipContents(Path zip, Batch batch) {
        this.zip = zip;
        this.batch = batch;
    }

    /** Whether the file starts as ZIP files do and is no DICOM file whose preamble looks like one. */
    static boolean isZip(Path path) {
        try (InputStream in = Files.newInputStream(path)) {
            byte[] head = in.readNBytes(132);
            boolean prefix =
                    head.length == 132 && head[128] == 'D' && head[129] == 'I' && head[130] == 'C' && head[131] == 'M';
            return !prefix && startsAsZip(head);
        } catch (IOException unreadable) {
            // whoever reads it as an object says so
            return false;
        }
    }

    private static boolean startsAsZip(byte[] head) {
        return head.length >= 4
                && head[0] == 'P'
                && head[1] == 'K'
                && ((head[2] == 3 && head[3] == 4) || (head[2] == 5 && head[3] == 6));
    }

    void take() throws IOException {
        List<? extends ZipEntry> entries;
        try {
            checkDirectory();
        } catch (IOException e) {
            batch.unreadable(Named.of(zip), sentence(e));
            return;
        }
        try (ZipFile file = new ZipFile(zip.toFile())) {
            entries = file.stream()
                    .filter(entry -> !entry.isDirectory())
                    .sorted(Comparator.comparing(ZipEntry::getName))
                    .toList();
            if (entries.isEmpty()) {
                batch.unreadable(Named.of(zip), "a ZIP file without files; nothing was checked");
            }
            for (ZipEntry entry : entries) {
                take(file, entry);
            }
        } catch (java.util.zip.ZipException e) {
            batch.unreadable(Named.of(zip), sentence(e));
        }
    }

    private static String sentence(IOException e) {
        return e instanceof RefusedException
                ? String.valueOf(e.getMessage())
                : "the ZIP file cannot be opened (%s); unpack it by other means and check the folder"
                        .formatted(Printable.of(String.valueOf(e.getMessage())));
    }

    /** The end record tells how long the directory is that would be read into memory (APPNOTE 4.3.16, 4.3.14). */
    private void checkDirectory() throws IOException {
        try (FileChannel channel = FileChannel.open(zip)) {
            int length = (int) Math.min(channel.size(), END_RECORD + LONGEST_COMMENT + LOCATOR);
            long start = channel.size() - length;
            ByteBuffer tail = read(channel, start, length);
            int at = length - END_RECORD;
            while (at >= 0 && tail.getInt(at) != 0x06054B50) {
                at--;
            }
            if (at < 0) {
                throw new RefusedException("the ZIP file has no end record; it is cut short, copy it again");
            }
            long entries = tail.getShort(at + 10) & 0xFFFF;
            long directory = tail.getInt(at + 12) & 0xFFFF_FFFFL;
            if (at >= LOCATOR && tail.getInt(at - LOCATOR) == 0x07064B50) {
                ByteBuffer longer = read(channel, tail.getLong(at - LOCATOR + 8), 56);
                entries = longer.getLong(32);
                directory = longer.getLong(40);
            }
            if (entries < 0 || entries > MOST_ENTRIES || directory < 0 || directory > LONGEST_DIRECTORY) {
                throw new RefusedException(
                        "the ZIP file has more than %d entries, or a directory of more than %d bytes; unpack it and check the folder"
                                .formatted(MOST_ENTRIES, LONGEST_DIRECTORY));
            }
        }
    }

    private static ByteBuffer read(FileChannel channel, long position, int length) throws IOException {
        if (position < 0 || position > channel.size() - length) {
            throw new RefusedException("the end record of the ZIP file points outside of it; copy it again");
        }
        ByteBuffer bytes = ByteBuffer.allocate(length).order(ByteOrder.LITTLE_ENDIAN);
        while (bytes.hasRemaining()) {
            if (channel.read(bytes, position + bytes.position()) < 0) {
                throw new EOFException("the file became shorter");
            }
        }
        return bytes;
    }

    private void take(ZipFile file, ZipEntry entry) throws IOException {
        Named named = Named.entry(zip, entry.getName());
        Path copy = Files.createTempFile("vestibule-entry-", ".part");
        String refused = "";
        try {
            try (InputStream in = file.getInputStream(entry);
                    OutputStream out = Files.newOutputStream(copy)) {
                copy(in, out, Math.max(1, entry.getCompressedSize()));
            }
        } catch (RefusedException e) {
            refused = String.valueOf(e.getMessage());
        } catch (IOException e) {
            refused = "the entry cannot be unpacked (%s); take the object from its source again"
                    .formatted(Printable.of(String.valueOf(e.getMessage())));
        }
        if (refused.isEmpty()) {
            batch.take(copy, named, true);
        } else {
            Files.delete(copy);
            batch.unreadable(named, refused);
        }
    }

    private void copy(InputStream in, OutputStream out, long compressed) throws IOException {
        byte[] chunk = new byte[1 << 16];
        long length = 0;
        for (int count = in.readNBytes(chunk, 0, chunk.length);
                count > 0;
                count = in.readNBytes(chunk, 0, chunk.length)) {
            if (length == 0 && startsAsZip(chunk) && !isObject(chunk, count)) {
                throw new RefusedException(
                        "a ZIP file inside a ZIP file is not opened; unpack it and check it by itself");
            }
            length += count;
            written += count;
            if (length > LONGEST_ENTRY || written > MOST_BYTES) {
                throw new RefusedException(
                        "the entry unpacks to more than %d bytes, or all entries to more than %d; unpack it and check the folder"
                                .formatted(LONGEST_ENTRY, MOST_BYTES));
            }
            if (length > INFLATION_FREE && length / compressed >= MOST_INFLATION) {
                throw new RefusedException(
                        "the entry unpacks to more than %d times its length; unpack it by other means if it is to be trusted"
                                .formatted(MOST_INFLATION));
            }
            out.write(chunk, 0, count);
        }
    }

    private static boolean isObject(byte[] head, int count) {
        return count >= 132 && head[128] == 'D' && head[129] == 'I' && head[130] == 'C' && head[131] == 'M';
    }
}
