package vestibule.samples.drawing;

import java.awt.image.BufferedImage;

/** The eight ways to lay a raster over itself without touching a sample. */
public enum Turn {
    NONE,
    ROTATE_90,
    ROTATE_180,
    ROTATE_270,
    FLIP_HORIZONTAL,
    FLIP_VERTICAL,
    TRANSPOSE,
    TRANSVERSE;

    private static final Turn[] UPRIGHT_BY_EXIF = {
        NONE, FLIP_HORIZONTAL, ROTATE_180, FLIP_VERTICAL, TRANSPOSE, ROTATE_90, TRANSVERSE, ROTATE_270
    };

    /** What a viewer does to show a picture with this Exif Orientation (1 to 8) upright. */
    public static Turn uprightBy(int exifOrientation) {
        return UPRIGHT_BY_EXIF[exifOrientation - 1];
    }

    /** The turn that takes this one back. */
    public Turn inverse() {
        return switch (this) {
            case ROTATE_90 -> ROTATE_270;
            case ROTATE_270 -> ROTATE_90;
            default -> this;
        };
    }

    /** Whether width and height change places. */
    public boolean swapsSides() {
        return this == ROTATE_90 || this == ROTATE_270 || this == TRANSPOSE || this == TRANSVERSE;
    }

    /** A turned copy of an RGB or grey picture. */
    public BufferedImage apply(BufferedImage from) {
        int width = from.getWidth();
        int height = from.getHeight();
        if (this == NONE) {
            return from;
        }
        BufferedImage to =
                new BufferedImage(swapsSides() ? height : width, swapsSides() ? width : height, from.getType());
        for (int y = 0; y < to.getHeight(); y++) {
            for (int x = 0; x < to.getWidth(); x++) {
                to.setRGB(x, y, pick(from, x, y, width - 1, height - 1));
            }
        }
        return to;
    }

    private int pick(BufferedImage from, int x, int y, int lastX, int lastY) {
        return switch (this) {
            case NONE -> from.getRGB(x, y);
            case ROTATE_90 -> from.getRGB(y, lastY - x);
            case ROTATE_180 -> from.getRGB(lastX - x, lastY - y);
            case ROTATE_270 -> from.getRGB(lastX - y, x);
            case FLIP_HORIZONTAL -> from.getRGB(lastX - x, y);
            case FLIP_VERTICAL -> from.getRGB(x, lastY - y);
            case TRANSPOSE -> from.getRGB(y, x);
            case TRANSVERSE -> from.getRGB(lastX - y, lastY - x);
        };
    }
}
