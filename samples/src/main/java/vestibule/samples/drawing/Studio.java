package vestibule.samples.drawing;

import java.awt.image.BufferedImage;
import java.util.List;

/** Takes the photographs: puts the wanted part of a person before the camera that shows the view. */
public final class Studio {
    private Studio() {}

    /**
     * One view, upright and unmirrored.
     *
     * @param view the trade's name of the view, as in the catalogue of views
     * @param orientation where rows and columns point in the patient
     * @param person who is photographed
     * @param tooth ISO 3950 number of the tooth in the middle, where the view has one; else 0
     * @param words what is written on a shade tab; else empty
     * @throws IllegalArgumentException for a view that nobody has learnt to draw
     */
    public static BufferedImage picture(
            String view, Orientation orientation, Likeness person, int tooth, String words, int width, int height) {
        double ratio = (double) width / height;
        Setting setting = Setting.of(view, person, tooth, ratio);
        BufferedImage image = Renderer.render(setting.scene(), setting.camera(), width, height);
        if (!words.isEmpty()) {
            ShadeTab.label(image, setting.camera(), words);
        }
        if (view.endsWith("-mirror")) {
            MirrorEdge.draw(image, person.skin());
        }
        Caption.draw(image, orientation, side(view));
        return image;
    }

    private static String side(String view) {
        List<String> parts = List.of(view.split("-", -1));
        return parts.contains("right") ? "RIGHT" : parts.contains("left") ? "LEFT" : "";
    }
}
