package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * How pictures by mirror are taken with a camera or in a room: where the operator stands, and how the camera is held (trade facts D-3, F-15).
 * A set-up says how the camera was rolled and names no flip, for one roll needs contrary flips in contrary views: an arch is upright by the
 * one of top and bottom where a side view is by the one of left and right (F-10 to F-13), so that the same roll makes a transverse of the
 * one and a transpose of the other.
 */
public enum MirrorSetUp {
    /** In front of the patient, camera upright to the patient. */
    FRONT(Capture.MIRROR_FRONT, Turn.NONE),
    /** Behind the head, at 12 o'clock. */
    BEHIND(Capture.MIRROR_BEHIND, Turn.NONE),
    /** In front, the camera rolled a quarter turn clockwise as its holder sees it: its recorded picture lies a quarter turn anticlockwise. */
    FRONT_ROLLED_RIGHT(Capture.MIRROR_FRONT, Turn.ROTATE_270),
    /** In front, the camera rolled a quarter turn anticlockwise as its holder sees it: its recorded picture lies a quarter turn clockwise. */
    FRONT_ROLLED_LEFT(Capture.MIRROR_FRONT, Turn.ROTATE_90),
    /** Behind the head, the camera rolled a quarter turn clockwise as its holder sees it. */
    BEHIND_ROLLED_RIGHT(Capture.MIRROR_BEHIND, Turn.ROTATE_270),
    /** Behind the head, the camera rolled a quarter turn anticlockwise as its holder sees it. */
    BEHIND_ROLLED_LEFT(Capture.MIRROR_BEHIND, Turn.ROTATE_90),
    /** The camera mirrors the picture back before it writes the file. */
    IN_CAMERA(Capture.MIRROR_FLIPPED, Turn.NONE);

    /** The words of settings, for sentences that say what was expected. */
    public static final String WORDS =
            "front, behind, either of them with -rolled-right or -rolled-left behind it, or in-camera";

    private final Capture capture;
    private final Turn roll;

    MirrorSetUp(Capture capture, Turn roll) {
        this.capture = capture;
        this.roll = roll;
    }

    /** The set-up of that word, if there is one. */
    public static Optional<MirrorSetUp> parse(String word) {
        return Arrays.stream(values())
                .filter(setUp -> setUp.word().equals(word))
                .findFirst();
    }

    /**
     * What to say now instead of a word that named one flip for every view, as settings had it once: each half of the views came out as with
     * another roll.
     */
    public static Optional<String> insteadOf(String word) {
        return switch (word) {
            case "front-transpose" -> Optional.of(instead(word, FRONT_ROLLED_LEFT, FRONT_ROLLED_RIGHT));
            case "front-transverse" -> Optional.of(instead(word, FRONT_ROLLED_RIGHT, FRONT_ROLLED_LEFT));
            case "behind-transpose" -> Optional.of(instead(word, BEHIND_ROLLED_RIGHT, BEHIND_ROLLED_LEFT));
            case "behind-transverse" -> Optional.of(instead(word, BEHIND_ROLLED_LEFT, BEHIND_ROLLED_RIGHT));
            default -> Optional.empty();
        };
    }

    private static String instead(String word, MirrorSetUp arches, MirrorSetUp sides) {
        return "%s put all views right by one flip, which no camera needs: %s does for upper and lower arches what it did, and %s for buccal views; say which way the camera is rolled, and look at what was filed, for one of the two kinds lies half a turn off"
                .formatted(word, arches.word(), sides.word());
    }

    /** The word that settings use. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** How such a camera looks at the patient. */
    public Capture capture() {
        return capture;
    }

    /** How a picture lies because the camera was rolled, beside one by a camera that was held upright. */
    public Turn roll() {
        return roll;
    }

    /**
     * What puts a picture of such a camera right.
     *
     * @param upright the same picture's placement, were it by a camera held upright
     * @return empty where nothing differs from that
     */
    Optional<Correction> correction(Placement upright) {
        return roll == Turn.NONE
                ? Optional.empty()
                : Correction.of(roll.inverse().then(upright.putRight()));
    }
}
