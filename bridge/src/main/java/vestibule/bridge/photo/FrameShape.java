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

    /** The word for it. */
    public String word() {
        return word;
    }
}
