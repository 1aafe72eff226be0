package vestibule.samples.drawing;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;

/** The strip along the lower edge that says which side is which. */
final class Caption {
    private Caption() {}

    /** Writes what lies at the left and the right end of the rows, and a word in the middle. */
    static void draw(BufferedImage image, Orientation orientation, String middle) {
        Graphics2D graphics = image.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        graphics.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        double strip = Math.min(image.getWidth(), image.getHeight()) * 0.055;
        double top = image.getHeight() - strip;
        graphics.setColor(new Color(16, 18, 22));
        graphics.fillRect(0, (int) top, image.getWidth(), image.getHeight() - (int) top);
        graphics.setColor(new Color(240, 240, 235));
        double letter = strip * 0.62;
        double y = top + (strip - letter) / 2;
        double side = strip * 0.4;
        Alphabet.draw(graphics, Orientation.opposite(orientation.rows()), side, y, letter);
        double right = image.getWidth() - side - Alphabet.width(orientation.rows(), letter);
        Alphabet.draw(graphics, orientation.rows(), right, y, letter);
        graphics.setColor(new Color(190, 190, 185));
        Alphabet.draw(graphics, middle, (image.getWidth() - Alphabet.width(middle, letter)) / 2, y, letter);
        graphics.dispose();
    }
}
