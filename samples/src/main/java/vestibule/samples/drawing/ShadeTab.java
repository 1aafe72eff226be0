package vestibule.samples.drawing;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.util.List;

/** A porcelain tab on a metal holder, held edge to edge below a tooth, with its shade name. */
final class ShadeTab {
    private static final Tint PORCELAIN = Tint.of(0xe2d3b2);
    private static final Tint NECK = Tint.of(0xcfae7c);
    private static final Tint METAL = Tint.of(0xb4b9be);
    /** How far below the edge of the tooth the middle of the writing is, millimetres. */
    private static final double WRITING = 16.6;

    private ShadeTab() {}

    /** The tab below a front tooth; {@code edge} is the middle of the tooth's edge. */
    static List<Mesh> below(Vector3 edge, ToothShape tooth) {
        ToothShape shape =
                new ToothShape(tooth.kind(), tooth.width() * 0.95, tooth.depth() * 0.8, tooth.height() * 0.88);
        PlacedTooth tab = new PlacedTooth(
                0,
                shape,
                ToothState.SOUND,
                0,
                edge.plus(new Vector3(0, -1.5, -0.9 - shape.height())),
                new Vector3(1, 0, 0),
                new Vector3(0, -1, 0),
                Vector3.HEAD);
        Mesh crown = tab.crown(spot -> {
            spot.paint(PORCELAIN);
            spot.mix(NECK, 0.7 * Curve.step(0.5, 0, spot.c));
            spot.gloss(0.5, 80);
        });
        double top = tab.neck().z() + 0.5;
        Mesh holder = Mesh.tube(
                40,
                40,
                spot -> {
                    spot.paint(METAL);
                    spot.roughen(0.5, 0.02);
                    spot.gloss(0.5, 25);
                },
                (u, v, corner) -> {
                    double turn = 2 * Math.PI * u;
                    double wide = new Curve(0, 1.6, 0.12, 1.6, 0.2, 4.4, 1, 4.6).at(v);
                    corner.place = new Vector3(
                            edge.x() + wide * Math.copySign(Math.pow(Math.abs(Math.cos(turn)), 0.4), Math.cos(turn)),
                            tab.neck().y() + 1.3 * Math.sin(turn),
                            top - 24 * v);
                });
        return List.of(crown, holder);
    }

    /** Engraves the name of the shade into the holder; the camera must look at the tab's tooth edge. */
    static void label(BufferedImage image, Camera camera, String words) {
        double scale = image.getWidth() / camera.width();
        double height = 1.8 * scale;
        Vector3 seen =
                camera.see(new Vector3(camera.target().x(), camera.target().y() - 3.5, -2.4 - WRITING));
        double x = image.getWidth() / 2.0 + seen.x() * scale - Alphabet.width(words, height) / 2;
        double y = image.getHeight() / 2.0 + seen.y() * scale - height / 2;
        Graphics2D graphics = image.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        graphics.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        graphics.setColor(new Color(24, 28, 34));
        Alphabet.draw(graphics, words, x, y, height);
        graphics.dispose();
    }
}
