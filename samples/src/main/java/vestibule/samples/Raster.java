package vestibule.samples;

import java.awt.image.BufferedImage;
import vestibule.samples.drawing.Likeness;
import vestibule.samples.drawing.Orientation;
import vestibule.samples.drawing.Studio;
import vestibule.samples.drawing.Turn;

/** From the picture put right back to what the camera stored; letters and samples take the same way. */
final class Raster {
    private Raster() {}

    static Orientation stored(SamplePhoto photo) {
        return Orientation.of(photo.finalOrientation())
                .after(mirror(photo))
                .after(Turn.uprightBy(photo.exifOrientation()).inverse());
    }

    /** Whether the stored raster stands upright. */
    static boolean turned(SamplePhoto photo) {
        return photo.portrait() != Turn.uprightBy(photo.exifOrientation()).swapsSides();
    }

    static BufferedImage draw(SamplePhoto photo, Likeness likeness, PhotoSize size) {
        int width = photo.portrait() ? size.height() : size.width();
        int height = photo.portrait() ? size.width() : size.height();
        int tooth = photo.teeth().isEmpty() ? 0 : photo.teeth().get(0);
        BufferedImage right = Studio.picture(
                photo.view(), Orientation.of(photo.finalOrientation()), likeness, tooth, photo.words(), width, height);
        BufferedImage seen = mirror(photo).apply(right);
        return Turn.uprightBy(photo.exifOrientation()).inverse().apply(seen);
    }

    /**
     * What a mirror at 45 degrees does to the picture put right. From in front it swaps the axis that is tilted: left
     * and right in a buccal view, top and bottom in an occlusal one; from behind the head the camera is upside down
     * besides.
     */
    private static Turn mirror(SamplePhoto photo) {
        boolean occlusal = photo.view().startsWith("occlusal-");
        return switch (photo.capture()) {
            case DIRECT -> Turn.NONE;
            case MIRROR_FRONT -> occlusal ? Turn.FLIP_VERTICAL : Turn.FLIP_HORIZONTAL;
            case MIRROR_BEHIND -> occlusal ? Turn.FLIP_HORIZONTAL : Turn.FLIP_VERTICAL;
        };
    }
}
