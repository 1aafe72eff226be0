package vestibule.bridge.photo;

/**
 * Which private notes of a camera go into objects; none unless a practice asks.
 *
 * @param place where the picture was taken (Exif GPS; 0016,0070 to 0016,008E)
 * @param owner Camera Owner Name (0016,004D)
 * @param serials Device Serial Number (0018,1000) and Lens Serial Number (0016,0051)
 * @param makerNotes the camera maker's own block (0016,002B)
 */
public record Keep(boolean place, boolean owner, boolean serials, boolean makerNotes) {

    /** No private note. */
    public static final Keep NOTHING = new Keep(false, false, false, false);
}
