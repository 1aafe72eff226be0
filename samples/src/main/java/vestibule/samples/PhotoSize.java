package vestibule.samples;

/**
 * How large the camera's sensor is, held level: the longer side is the width.
 *
 * @param width 160 to 8000
 * @param height 120 to 8000, at most the width
 */
public record PhotoSize(int width, int height) {
    public static final PhotoSize THUMBNAIL = new PhotoSize(320, 240);
    public static final PhotoSize USUAL = new PhotoSize(1600, 1200);
    public static final PhotoSize TWELVE_MEGAPIXELS = new PhotoSize(4000, 3000);

    public PhotoSize {
        if (width < 160 || width > 8000 || height < 120 || height > width) {
            throw new IllegalArgumentException("size: found " + width + "x" + height
                    + ", expected width x height from 160x120 to 8000x8000 with the longer side first");
        }
    }

    /** Reads {@code 1600x1200}. */
    public static PhotoSize parse(String text) {
        int cross = text.indexOf('x');
        try {
            return new PhotoSize(
                    Integer.parseInt(text.substring(0, Math.max(0, cross))),
                    Integer.parseInt(text.substring(cross + 1)));
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(
                    "size: found " + text + ", expected width x height in pixels such as 1600x1200", e);
        }
    }

    @Override
    public String toString() {
        return width + "x" + height;
    }
}
