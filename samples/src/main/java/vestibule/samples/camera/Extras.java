package vestibule.samples.camera;

/**
 * What else lies in a camera file.
 *
 * @param jfif a JFIF segment before the Exif one
 * @param thumbnail a small JPEG inside the Exif segment, stored the way the large one is
 * @param profile the sRGB colour profile in APP2
 * @param comment text of a comment segment; empty for none
 * @param trailer bytes behind the end of the image
 */
public record Extras(boolean jfif, boolean thumbnail, boolean profile, String comment, Trailer trailer) {
    public static final Extras NONE = new Extras(false, false, false, "", new Trailer(new byte[0]));

    /** Bytes behind the end of the image. */
    public static final class Trailer {
        private final byte[] bytes;

        public Trailer(byte[] bytes) {
            this.bytes = bytes.clone();
        }
    }

    byte[] behindTheEnd() {
        return trailer.bytes.clone();
    }
}
