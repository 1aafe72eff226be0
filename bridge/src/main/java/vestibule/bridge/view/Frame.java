package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How the frame of a picture lies, once the camera's own turn was followed. */
public enum Frame {
    /** Higher than wide. */
    PORTRAIT,
    /** Wider than high. */
    LANDSCAPE,
    /** As wide as high, which tells nothing. */
    SQUARE;

    /** The frame of a picture of that size. */
    public static Frame of(int width, int height) {
        if (width == height) {
            return SQUARE;
        }
        return width > height ? LANDSCAPE : PORTRAIT;
    }

    static Optional<Frame> parse(String word) {
        return Arrays.stream(values())
                .filter(frame -> frame.word().equals(word))
                .findFirst();
    }

    /** The word that tables and sentences use. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
