package vestibule.bridge.intake;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.HalfSize;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;

/** Takes one file of a source in: read once, hashed on the way, checked in our own copy. */
final class Taking {

    private static final Logger LOG = LoggerFactory.getLogger(Taking.class);
    private static final int BUFFER = 1 << 17;

    /** Larger pictures are checked without a glance, which takes memory by their size. */
    private static final long MOST_PIXELS = 30_000_000;

    private final Originals originals;
    private final Register register;
    private final Glance glance;

    Taking(Originals originals, Register register, Glance glance) {
        this.originals = originals;
        this.register = register;
        this.glance = glance;
    }

    /** What became of a file. */
    sealed interface Outcome {

        /** Its bytes are safe with us, and are to be recorded. */
        record Safe(String photo, Optional<String> seen) implements Outcome {}

        /** It is no whole JPEG, or not yet. */
        record NotWhole(String sentence) implements Outcome {}

        /**
         * It is something else than a JPEG, or none that is taken in.
         *
         * @param maybeCard whether it may show a patient card all the same
         */
        record Other(String sentence, boolean maybeCard) implements Outcome {}

        /** It changed while it was read. */
        record Changing() implements Outcome {}
    }

    /**
     * Takes a file in; who asked has it recorded, in the order of names.
     *
     * @throws StoreException if our own disk cannot take it
     * @throws SourceException if the source cannot be read
     * @throws IOException if the register cannot be read
     */
    Outcome take(Listing.Entry file) throws IOException {
        if (!theirs(() -> startsLikeJpeg(file))) {
            return named(file)
                    ? new Outcome.NotWhole("it is called a JPEG and does not begin like one; it may still be written")
                    : new Outcome.Other("it is no JPEG and is not taken in; copy it yourself", false);
        }
        if (file.bytes() > JpegLimits.DEFAULT.maxFileBytes()) {
            return new Outcome.Other(
                    "it is longer than any photograph (%d bytes) and is not taken in".formatted(file.bytes()), true);
        }
        if (register.knowsLength(file.bytes())) {
            String photo = theirs(() -> Originals.hash(file.path()));
            if (register.keeps(photo) && originals.holds(photo, file.bytes()) && theirs(() -> unchanged(file))) {
                return new Outcome.Safe(photo, Optional.empty());
            }
        }
        return copy(file);
    }

    private Outcome copy(Listing.Entry file) throws IOException {
        checkRoom(file);
        Path arrived = ours("make a file", originals::arrive);
        try {
            String photo = theirs(() -> transfer(file, arrived));
            if (!theirs(() -> unchanged(file)) || Files.size(arrived) != file.bytes()) {
                return new Outcome.Changing();
            }
            Optional<String> seen = checkWhole(arrived);
            ours("keep a photograph", () -> {
                originals.keep(arrived, photo);
                return photo;
            });
            return new Outcome.Safe(photo, seen);
        } catch (JpegFormatException e) {
            return new Outcome.NotWhole("it is no whole JPEG: " + withoutStop(String.valueOf(e.getMessage())));
        } finally {
            Files.deleteIfExists(arrived);
        }
    }

    /** From the first marker to the last, and every code between them where its kind is one that is decoded here. */
    private Optional<String> checkWhole(Path arrived) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(arrived)) {
            Jpeg jpeg = Jpeg.read(channel, JpegLimits.DEFAULT);
            if (!EntropyCheck.reads(jpeg)) {
                return Optional.empty();
            }
            if ((long) jpeg.frame().lines() * jpeg.frame().samplesPerLine() <= MOST_PIXELS) {
                try {
                    return glance.at(HalfSize.read(channel, jpeg));
                } catch (RuntimeException | OutOfMemoryError e) {
                    // Only the glance is lost: deciding looks more closely, and whether it is whole is checked below
                    LOG.warn("a photograph could not be looked at in passing: {}", e.toString());
                }
            }
            EntropyCheck.surplusBytes(channel, jpeg);
            return Optional.empty();
        }
    }

    private static String withoutStop(String sentence) {
        return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
    }

    private void checkRoom(Listing.Entry file) throws IOException {
        if (!ours("ask for free space", () -> originals.hasRoomFor(file.bytes()))) {
            throw new StoreException(
                    "the disk of our originals is full up to its reserve; make room, taking in goes on by itself");
        }
    }

    private interface Reading<T> {
        T run() throws IOException;
    }

    /** What goes wrong with the source is told apart from what goes wrong with our own disk. */
    private static <T> T theirs(Reading<T> reading) throws StoreException, SourceException {
        try {
            return reading.run();
        } catch (StoreException e) {
            throw e;
        } catch (IOException e) {
            throw new SourceException(e);
        }
    }

    private interface OwnWork<T> {
        T run() throws IOException;
    }

    private static <T> T ours(String what, OwnWork<T> work) throws StoreException {
        try {
            return work.run();
        } catch (IOException e) {
            throw new StoreException("our folder of originals could not %s (%s)".formatted(what, e.getMessage()), e);
        }
    }

    /** Reads the source once; the copy is on the disk when this returns. */
    private static String transfer(Listing.Entry file, Path arrived) throws IOException {
        MessageDigest digest = Originals.sha256();
        ByteBuffer buffer = ByteBuffer.allocate(BUFFER);
        try (SeekableByteChannel from = Files.newByteChannel(file.path(), StandardOpenOption.READ);
                FileChannel to = ours("open a file", () -> FileChannel.open(arrived, StandardOpenOption.WRITE))) {
            long left = JpegLimits.DEFAULT.maxFileBytes();
            while (left > 0 && from.read(buffer.clear()) >= 0) {
                buffer.flip();
                left -= buffer.remaining();
                digest.update(buffer.duplicate());
                ours("write", () -> writeAll(to, buffer));
            }
            ours("force a file to the disk", () -> {
                to.force(true);
                return true;
            });
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private static boolean writeAll(FileChannel to, ByteBuffer buffer) throws IOException {
        while (buffer.hasRemaining()) {
            to.write(buffer);
        }
        return true;
    }

    private static boolean unchanged(Listing.Entry file) throws IOException {
        return Files.size(file.path()) == file.bytes()
                && Files.getLastModifiedTime(file.path()).toInstant().equals(file.changed());
    }

    /** Start of image, then the first byte of another marker (T.81 B.1.1.3, Table B.1). */
    private static boolean startsLikeJpeg(Listing.Entry file) throws IOException {
        ByteBuffer start = ByteBuffer.allocate(3);
        try (SeekableByteChannel from = Files.newByteChannel(file.path(), StandardOpenOption.READ)) {
            int got = 0;
            while (start.hasRemaining() && got >= 0) {
                got = from.read(start);
            }
        }
        return !start.hasRemaining()
                && start.get(0) == (byte) 0xFF
                && start.get(1) == (byte) 0xD8
                && start.get(2) == (byte) 0xFF;
    }

    /** A file that has not got its bytes yet is known by its name alone. */
    private static boolean named(Listing.Entry file) {
        String name = file.name().toLowerCase(Locale.ROOT);
        return file.bytes() == 0 || name.endsWith(".jpg") || name.endsWith(".jpeg") || name.endsWith(".jpe");
    }
}
