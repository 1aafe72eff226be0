package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How pictures by mirror are taken with a camera or in a room: where the operator stands, and how the camera is held (trade facts D-3, F-15). */
public enum MirrorSetUp {
    /** In front of the patient, camera upright to the patient. */
    FRONT(Capture.MIRROR_FRONT),
    /** Behind the head, at 12 o'clock. */
    BEHIND(Capture.MIRROR_BEHIND),
    /** In front, the camera rolled by a quarter turn. */
    FRONT_TRANSPOSE(Capture.MIRROR_FRONT, Correction.TRANSPOSE),
    /** In front, the camera rolled by a quarter turn the other way. */
    FRONT_TRANSVERSE(Capture.MIRROR_FRONT, Correction.TRANSVERSE),
    /** Behind the head, the camera rolled by a quarter turn. */
    BEHIND_TRANSPOSE(Capture.MIRROR_BEHIND, Correction.TRANSPOSE),
    /** Behind the head, the camera rolled by a quarter turn the other way. */
    BEHIND_TRANSVERSE(Capture.MIRROR_BEHIND, Correction.TRANSVERSE),
    /** The camera mirrors the picture back before it writes the file. */
    IN_CAMERA(Capture.MIRROR_FLIPPED);

    private final Capture capture;
    private final Optional<Correction> correction;

    MirrorSetUp(Capture capture) {
        this.capture = capture;
        this.correction = Optional.empty();
    }

    MirrorSetUp(Capture capture, Correction correction) {
        this.capture = capture;
        this.correction = Optional.of(correction);
    }

    /** The set-up of that word, if there is one. */
    public static Optional<MirrorSetUp> parse(String word) {
        return Arrays.stream(values())
                .filter(setUp -> setUp.word().equals(word))
                .findFirst();
    }

    /** The word that settings use. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** How such a camera looks at the patient. */
    public Capture capture() {
        return capture;
    }

    /** What puts every mirror picture of it right; empty where that follows from the view. */
    public Optional<Correction> correction() {
        return correction;
    }
}
