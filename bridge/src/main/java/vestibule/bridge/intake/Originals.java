package vestibule.bridge.intake;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.Set;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.io.Durability;
import vestibule.dicom.jpeg.JpegLimits;

/**
 * The folder of originals: each photograph once, under the hash of its bytes, never changed. A photograph is forced to the disk under
 * another name first, then renamed, then its folder is forced, so that what stands under a hash is whole after any power cut. Several
 * nodes may share one folder.
 */
public final class Originals {

    private static final Logger LOG = LoggerFactory.getLogger(Originals.class);
    private static final int BUFFER = 1 << 17;
    private static final String ARRIVING = "arriving";
    private static final String PLACE = "place";
    private static final int LONGEST_PLACE = 100;

    private final Path folder;
    private final Path arriving;
    private final long reserve;
    private final String place;
    private final Set<Path> shelves = new HashSet<>();

    private Originals(Path folder, Path arriving, long reserve, String place) {
        this.folder = folder;
        this.arriving = arriving;
        this.reserve = reserve;
        this.place = place;
    }

    /**
     * Opens the folder, and makes it if it is not there.
     *
     * @param folder where
     * @param node who writes; each writer has a folder of its own for what is arriving
     * @param reserve how many bytes of the disk stay free
     */
    public static Originals open(Path folder, String node, long reserve) throws IOException {
        Path arriving = folder.resolve(ARRIVING).resolve(node);
        Durability.makeFolders(arriving);
        return new Originals(folder, arriving, reserve, placeOf(folder, arriving));
    }

    /** The first writer gives the folder a name of its own, so that nodes know whether they see the same one. */
    private static String placeOf(Path folder, Path arriving) throws IOException {
        Path marker = folder.resolve(PLACE);
        if (!Files.exists(marker)) {
            Path mine = arriving.resolve(PLACE + ".part");
            try {
                write(mine, ByteBuffer.wrap(UUID.randomUUID().toString().getBytes(StandardCharsets.US_ASCII)));
                Files.createLink(marker, mine);
            } catch (FileAlreadyExistsException another) {
                // Another node was first; its name counts.
                return read(marker);
            } catch (UnsupportedOperationException noLinks) {
                move(mine, marker);
            } finally {
                Files.deleteIfExists(mine);
            }
            Durability.forceFolder(folder);
        }
        return read(marker);
    }

    private static void write(Path file, ByteBuffer bytes) throws IOException {
        try (FileChannel channel = FileChannel.open(
                file, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(true);
        }
    }

    private static String read(Path marker) throws IOException {
        String name = Files.readString(marker, StandardCharsets.US_ASCII).strip();
        if (name.isEmpty() || name.length() > LONGEST_PLACE) {
            throw new IOException(
                    marker + " does not hold the name of this folder of originals; restore it from a backup");
        }
        return name;
    }

    /** What this folder calls itself, wherever it is mounted. */
    public String place() {
        return place;
    }

    /**
     * Makes sure that the folder is there, as one on a share may not be; then an original that is missing is lost.
     *
     * @throws IOException if it is not, or another lies in its place
     */
    public void requireThere() throws IOException {
        if (!read(folder.resolve(PLACE)).equals(place)) {
            throw new IOException("another folder of originals lies where ours was");
        }
    }

    /** Where the original of that hash lies. */
    public Path path(String photo) {
        return folder.resolve(photo.substring(0, 2)).resolve(photo + ".jpg");
    }

    /** Whether an original of that hash and length lies here. */
    public boolean holds(String photo, long bytes) throws IOException {
        Path path = path(photo);
        return Files.exists(path) && Files.size(path) == bytes;
    }

    /**
     * Whether an original of that hash lies here, byte for byte; a disk may lose some without a change of length. What cannot be read is none,
     * for another copy in its place can be.
     */
    public boolean holdsWhole(String photo) {
        try {
            return hash(path(photo)).equals(photo);
        } catch (NoSuchFileException gone) {
            return false;
        } catch (IOException e) {
            LOG.warn("{}: our copy cannot be read: {}", photo, e.toString());
            return false;
        }
    }

    /** What the bytes of a file are called: their hash, up to the length that any photograph may have. */
    static String hash(Path file) throws IOException {
        MessageDigest digest = sha256();
        ByteBuffer buffer = ByteBuffer.allocate(BUFFER);
        try (SeekableByteChannel from = Files.newByteChannel(file, StandardOpenOption.READ)) {
            long left = JpegLimits.DEFAULT.maxFileBytes();
            while (left > 0 && from.read(buffer.clear()) >= 0) {
                left -= buffer.flip().remaining();
                digest.update(buffer);
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** Deletes what was arriving when this writer ended in the middle; to be called before it takes anything. */
    public void clearArriving() throws IOException {
        try (DirectoryStream<Path> left = Files.newDirectoryStream(arriving)) {
            for (Path file : left) {
                Files.delete(file);
            }
        }
    }

    /** Deletes an original. */
    public void delete(String photo) throws IOException {
        Files.deleteIfExists(path(photo));
    }

    /** Whether that many bytes fit without touching the reserve of the disk. */
    boolean hasRoomFor(long bytes) throws IOException {
        return Files.getFileStore(folder).getUsableSpace() - bytes >= reserve;
    }

    /** Whether the disk is full up to its reserve, so that nothing is taken in. */
    public boolean isFull() throws IOException {
        return !hasRoomFor(1);
    }

    /** A file of no name that a photograph arrives in. */
    Path arrive() throws IOException {
        return Files.createTempFile(arriving, "", ".part");
    }

    /** Puts an arrived file, whose bytes are on the disk already, under its hash; when this returns its name is too. */
    void keep(Path arrived, String photo) throws IOException {
        Path target = path(photo);
        Path shelf = target.getParent();
        if (shelf == null) {
            throw new IllegalArgumentException("no folder for " + photo);
        }
        makeShelf(shelf);
        move(arrived, target);
        Durability.forceFolder(shelf);
    }

    /** One at a time: whoever finds a shelf remembered must find it on the disk too. */
    private synchronized void makeShelf(Path shelf) throws IOException {
        if (!shelves.contains(shelf)) {
            // Also where the folder is there: it may have been made by one that was killed before its name was on the
            // disk.
            Files.createDirectories(shelf);
            Durability.forceFolder(folder);
            shelves.add(shelf);
        }
    }

    private static void move(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }
}
