package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Optional;

/** How the camera looked at the patient. */
public enum Capture {
    /** Straight at what is shown, or at a picture that reads as if it were. */
    DIRECT("direct"),
    /** Straight, the camera upside down to the patient: the operator behind the head, or at the far side of a cast. */
    DIRECT_BEHIND("direct-behind"),
    /** Into a mirror, the operator in front of the patient. */
    MIRROR_FRONT("mirror-front"),
    /** Into a mirror, the operator behind the patient's head. */
    MIRROR_BEHIND("mirror-behind"),
    /** Into a mirror, by a camera that mirrors the picture back before it writes the file; only a practice's settings can say so. */
    MIRROR_FLIPPED("mirror-flipped");

    /** The words a person may use, for sentences that say what was expected. */
    public static final String WORDS = "direct, direct-behind, mirror-front or mirror-behind";

    /** The same for a view that is always taken by mirror. */
    static final String MIRROR_WORDS = "mirror-front or mirror-behind";

    /** The same where nobody knows which camera it was. */
    public static final String ALL_WORDS = allWords(WORDS);

    private final String word;

    static String allWords(String words) {
        return words + "; mirror-flipped if settings say that the camera mirrors back";
    }

    Capture(String word) {
        this.word = word;
    }

    /** The capture of that word, if there is one. */
    public static Optional<Capture> parse(String word) {
        return Arrays.stream(values())
                .filter(capture -> capture.word.equals(word))
                .findFirst();
    }

    /** The word that commands and reports use. */
    public String word() {
        return word;
    }

    /** Whether a mirror lay between the camera and the patient. */
    public boolean byMirror() {
        return this != DIRECT && this != DIRECT_BEHIND;
    }

    /** Whether the picture is laterally reversed as recorded, so that one flip has to put it right. */
    public boolean reversed() {
        return this == MIRROR_FRONT || this == MIRROR_BEHIND;
    }
}
