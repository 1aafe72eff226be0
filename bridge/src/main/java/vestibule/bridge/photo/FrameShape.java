package vestibule.bridge.photo;

/** How the frame of an upright picture lies. */
public enum FrameShape {
    /** Higher than wide. */
    PORTRAIT("portrait"),
    /** Wider than high. */
    LANDSCAPE("landscape"),
    /** As wide as high. */
    SQUARE("square");

    private final String word;

    FrameShape(String word) {
        this.word = word;
    }

    /** The shape of a picture of this size. */
    public static FrameShape of(int columns, int rows) {
        if (columns == rows) {
            return SQUARE;
        }
        return columns > rows ? LANDSCAPE : PORTRAIT;
    }

    /** How it lies after a quarter turn. */
    FrameShape rolled() {
        return switch (this) {
            case PORTRAIT -> LANDSCAPE;
            case LANDSCAPE -> PORTRAIT;
            case SQUARE -> SQUARE;
        };
    }

    /** The word for it. */
    public String word() {
        return word;
    }
}
