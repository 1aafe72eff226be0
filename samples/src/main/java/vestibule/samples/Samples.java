package vestibule.samples;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import vestibule.samples.SamplePhoto.Trait;
import vestibule.samples.camera.CameraFile;
import vestibule.samples.camera.Extras;

/**
 * Where to start: the patients of the invented practice, the sample photographs with the truth about each, and small
 * DICOM files put together by hand.
 *
 * <pre>{@code
 * SamplePhoto photo = Samples.photo("zoe-occlusal-maxillary-mirror");
 * byte[] file = Samples.jpeg(photo, PhotoSize.THUMBNAIL);   // as the camera stored it
 * photo.storedOrientation();                                // "L\A": a raw mirror capture
 * photo.finalOrientation();                                 // "L\P": what it must become
 * byte[] dicom = Samples.file("explicit-little-endian");
 * }</pre>
 */
public final class Samples {
    private static final List<SamplePhoto> PHOTOS = Catalogue.photos();
    private static final Map<String, SamplePhoto> BY_ID =
            PHOTOS.stream().collect(Collectors.toMap(SamplePhoto::id, p -> p, (p, q) -> p, LinkedHashMap::new));

    /** Drawing takes a second or two, so files up to the usual size are kept. */
    private static final Map<String, byte[]> DRAWN = new ConcurrentHashMap<>();

    /** How much of the other picture lies behind the end of a file. */
    private static final int TRAILER_LENGTH = 4096;

    private Samples() {}

    /** The invented patients. */
    public static List<SamplePatient> patients() {
        return Practice.patients();
    }

    /** The name of the invented practice. */
    public static String practice() {
        return Practice.NAME;
    }

    /** Every sample photograph, in the order in which they were taken within each sitting. */
    public static List<SamplePhoto> photos() {
        return PHOTOS;
    }

    /**
     * The photograph of this id.
     *
     * @throws IllegalArgumentException if there is none
     */
    public static SamplePhoto photo(String id) {
        SamplePhoto photo = BY_ID.get(id);
        if (photo == null) {
            throw new IllegalArgumentException(
                    "photo: found no sample called " + id + ", expected an id of the catalogue; list prints them all");
        }
        return photo;
    }

    /** The file of a photograph at the usual size, 1600x1200. */
    public static byte[] jpeg(SamplePhoto photo) {
        return jpeg(photo, PhotoSize.USUAL);
    }

    /** The file of a photograph, byte for byte the same every time. */
    public static byte[] jpeg(SamplePhoto photo, PhotoSize size) {
        if (size.width() > PhotoSize.USUAL.width()) {
            return develop(photo, size);
        }
        return DRAWN.computeIfAbsent(photo.id() + " " + size, key -> develop(photo, size))
                .clone();
    }

    /** Draws and codes anew. */
    static byte[] develop(SamplePhoto photo, PhotoSize size) {
        BufferedImage raster = Raster.draw(photo, Practice.likeness(photo.patient()), size);
        try {
            return CameraFile.write(raster, Cameras.coding(photo), Cameras.exif(photo), extras(photo));
        } catch (IOException e) {
            throw new UncheckedIOException("photo " + photo.id() + ": the JPEG writer of the Java runtime failed", e);
        }
    }

    private static Extras extras(SamplePhoto photo) {
        byte[] behind = new byte[0];
        if (photo.traits().contains(Trait.TRAILER)) {
            byte[] other = develop(photo("lea-smile-exif-1"), PhotoSize.THUMBNAIL);
            behind = Arrays.copyOf(other, Math.min(other.length, TRAILER_LENGTH));
        }
        String comment = photo.traits().contains(Trait.COMMENT) ? "Okulara pocket camera, invented" : "";
        return new Extras(
                photo.traits().contains(Trait.JFIF),
                photo.traits().contains(Trait.THUMBNAIL),
                photo.traits().contains(Trait.PROFILE),
                comment,
                new Extras.Trailer(behind));
    }

    /** The catalogue as tab-separated text, one header line, LF line ends. */
    public static String catalogue() {
        return Listing.of(PHOTOS);
    }

    /** The hand-assembled DICOM files. */
    public static List<SampleFile> files() {
        return SampleFile.all();
    }

    /**
     * The bytes of a hand-assembled DICOM file.
     *
     * @throws IllegalArgumentException if there is none of this name
     */
    public static byte[] file(String name) {
        return SampleFile.all().stream()
                .filter(file -> file.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(
                        "file: found no sample called " + name + ", expected a name that files prints"))
                .bytes();
    }
}
