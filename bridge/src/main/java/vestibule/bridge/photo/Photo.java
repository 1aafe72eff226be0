package vestibule.bridge.photo;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Optional;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Turn;

/**
 * One JPEG as the camera wrote it. Nothing here ever writes to the file.
 *
 * @param file where it is
 * @param sha256 the hash of all its bytes, in hexadecimal: its identity, whatever its name
 * @param jpeg how its stream is made
 * @param camera what the camera noted about the shot
 */
public record Photo(Path file, String sha256, Jpeg jpeg, CameraNotes camera) {

    /** Reads a photograph without any private note of its camera. */
    public static Photo read(Path file) throws IOException, PhotoException {
        return read(file, Keep.NOTHING);
    }

    /**
     * Reads a photograph.
     *
     * @param keep which private notes of the camera are wanted
     * @throws PhotoException if it is no JPEG, or a broken one
     * @throws IOException if the file cannot be read
     */
    public static Photo read(Path file, Keep keep) throws IOException, PhotoException {
        if (!Files.isRegularFile(file)) {
            throw new java.nio.file.NoSuchFileException(file.toString());
        }
        try {
            Jpeg jpeg = Jpeg.read(file, JpegLimits.DEFAULT);
            return new Photo(file, hash(file), jpeg, CameraNotes.of(jpeg, keep));
        } catch (JpegFormatException e) {
            throw PhotoException.of(e);
        }
    }

    /**
     * A photograph that was read to its end before, by its headers alone.
     *
     * @param sha256 the hash of its bytes, as it was found then
     * @throws PhotoException if it is no JPEG, or a broken one
     * @throws IOException if the file cannot be read
     */
    public static Photo kept(Path file, String sha256) throws IOException, PhotoException {
        try (SeekableByteChannel channel = Files.newByteChannel(file)) {
            Optional<Jpeg> headers = Jpeg.readHeaders(channel, JpegLimits.DEFAULT);
            Jpeg jpeg = headers.isPresent() ? headers.get() : Jpeg.read(file, JpegLimits.DEFAULT);
            return new Photo(file, sha256, jpeg, CameraNotes.of(jpeg, Keep.NOTHING));
        } catch (JpegFormatException e) {
            throw PhotoException.of(e);
        }
    }

    /** How the picture has to be turned to stand upright, by what the camera noted; as it is where it noted nothing. */
    public Turn upright() {
        return camera.orientation().flatMap(Turn::uprightFromExif).orElse(Turn.NONE);
    }

    /**
     * The same photograph with the camera's clock put right.
     *
     * @param correction what has to be added to what the camera noted
     */
    public Photo withClock(Duration correction) {
        return correction.isZero() ? this : new Photo(file, sha256, jpeg, camera.withClock(correction));
    }

    private static String hash(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file);
                DigestInputStream digest = new DigestInputStream(in, MessageDigest.getInstance("SHA-256"))) {
            digest.transferTo(java.io.OutputStream.nullOutputStream());
            return HexFormat.of().formatHex(digest.getMessageDigest().digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
