package vestibule.bridge.patient;

import com.google.zxing.qrcode.encoder.ByteMatrix;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Random;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;

/** A patient card as a camera sees it: on a cloth of some pattern, turned, not filling the frame, with noise, as a JPEG. */
public final class PhotographedCard {

    private PhotographedCard() {}

    /**
     * A frame with a card.
     *
     * @param width pixels
     * @param height pixels
     * @param degrees how far the card is turned
     * @param share how much of the shorter edge the code takes
     * @param mirrored whether the camera mirrored the frame
     * @param seed for noise and cloth
     */
    public static byte[] jpeg(
            Patient patient, int width, int height, double degrees, double share, boolean mirrored, long seed)
            throws IOException {
        BufferedImage frame = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = frame.createGraphics();
        pen.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        cloth(pen, width, height, new Random(seed));
        if (mirrored) {
            pen.transform(new AffineTransform(-1, 0, 0, 1, width, 0));
        }
        pen.translate(width / 2.0 + 0.04 * width, height / 2.0 - 0.03 * height);
        pen.rotate(Math.toRadians(degrees));
        ByteMatrix code = CardPage.code(patient);
        double edge = Math.min(width, height) * share / code.getWidth();
        pen.scale(edge, edge);
        pen.translate(-code.getWidth() / 2.0, -code.getHeight() / 2.0);
        pen.setColor(new Color(0xF4, 0xF1, 0xEA));
        pen.fillRect(-6, -6, code.getWidth() + 12, code.getHeight() + 20);
        pen.setColor(new Color(0x20, 0x1E, 0x22));
        for (int y = 0; y < code.getHeight(); y++) {
            for (int x = 0; x < code.getWidth(); x++) {
                if (code.get(x, y) == 1) {
                    pen.fillRect(x, y, 1, 1);
                }
            }
        }
        pen.dispose();
        return encoded(frame);
    }

    private static void cloth(Graphics2D pen, int width, int height, Random random) {
        pen.setColor(new Color(0x55, 0x70, 0x80));
        pen.fillRect(0, 0, width, height);
        for (int i = 0; i < 400; i++) {
            pen.setColor(new Color(60 + random.nextInt(80), 90 + random.nextInt(60), 110 + random.nextInt(60)));
            pen.fillOval(random.nextInt(width), random.nextInt(height), width / 20, height / 30);
        }
    }

    private static byte[] encoded(BufferedImage frame) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ImageWriteParam how = writer.getDefaultWriteParam();
        how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        how.setCompressionQuality(0.85f);
        try (var stream = ImageIO.createImageOutputStream(out)) {
            writer.setOutput(stream);
            writer.write(null, new IIOImage(frame, null, null), how);
        } finally {
            writer.dispose();
        }
        return out.toByteArray();
    }
}
