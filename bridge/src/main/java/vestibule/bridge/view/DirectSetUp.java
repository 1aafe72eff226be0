package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Where the operator stands for pictures taken straight inside the mouth, with a camera or in a room (trade facts F-35, D-3). */
public enum DirectSetUp {
    /** In front of the patient, camera upright to the patient. */
    FRONT(Capture.DIRECT),
    /** Behind the head, at 12 o'clock: the picture is upside down to the patient, and the camera cannot know it. */
    BEHIND(Capture.DIRECT_BEHIND);

    private final Capture capture;

    DirectSetUp(Capture capture) {
        this.capture = capture;
    }

    /** The set-up of that word, if there is one. */
    public static Optional<DirectSetUp> parse(String word) {
        return Arrays.stream(values())
                .filter(setUp -> setUp.word().equals(word))
                .findFirst();
    }

    /** The word that settings use. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** How such a camera looks at the patient. */
    public Capture capture() {
        return capture;
    }
}
