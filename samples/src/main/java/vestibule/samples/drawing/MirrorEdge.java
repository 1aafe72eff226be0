package vestibule.samples.drawing;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RadialGradientPaint;
import java.awt.RenderingHints;
import java.awt.geom.Area;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;

/** The polished rim of the mirror, and the out-of-focus lip around it. */
final class MirrorEdge {
    private MirrorEdge() {}

    static void draw(BufferedImage image, int skin) {
        double w = image.getWidth();
        double h = image.getHeight();
        Graphics2D graphics = image.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        graphics.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        Path2D glass = glass(w, h);
        Area around = new Area(new Rectangle2D.Double(0, 0, w, h));
        around.subtract(new Area(glass));
        graphics.setPaint(new RadialGradientPaint(
                new Point2D.Double(w / 2, h / 2),
                (float) (w * 0.66),
                new float[] {0.62f, 0.78f, 0.92f, 1f},
                new Color[] {new Color(0x7a2f30), new Color(0xa8565a), new Color(0xb9706a), new Color(skin)}));
        graphics.fill(around);
        float unit = (float) (h / 1000);
        graphics.setColor(new Color(30, 20, 22, 150));
        graphics.setStroke(new BasicStroke(20 * unit));
        graphics.draw(glass);
        graphics.setColor(new Color(0x8f989e));
        graphics.setStroke(new BasicStroke(11 * unit));
        graphics.draw(glass);
        graphics.setColor(new Color(0xe6ecef));
        graphics.setStroke(new BasicStroke(3.5f * unit));
        graphics.draw(glass);
        graphics.dispose();
    }

    private static Path2D glass(double w, double h) {
        Path2D path = new Path2D.Double();
        path.moveTo(w * 0.16, -h * 0.04);
        path.curveTo(w * 0.07, h * 0.05, w * 0.035, h * 0.25, w * 0.03, h * 0.5);
        path.curveTo(w * 0.035, h * 0.75, w * 0.07, h * 0.95, w * 0.16, h * 1.04);
        path.lineTo(w * 0.84, h * 1.04);
        path.curveTo(w * 0.93, h * 0.95, w * 0.965, h * 0.75, w * 0.97, h * 0.5);
        path.curveTo(w * 0.965, h * 0.25, w * 0.93, h * 0.05, w * 0.84, -h * 0.04);
        path.closePath();
        return path;
    }
}
