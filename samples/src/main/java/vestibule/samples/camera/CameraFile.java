package vestibule.samples.camera;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** Puts a JPEG file together as a camera writes it. */
public final class CameraFile {
    private static final int SOI = 0xD8;
    private static final int SOS = 0xDA;
    private static final int APP0 = 0xE0;
    private static final int APP1 = 0xE1;
    private static final int APP2 = 0xE2;
    private static final int COM = 0xFE;
    private static final byte[] PROFILE_NAME = "ICC_PROFILE\0".getBytes(StandardCharsets.US_ASCII);

    private CameraFile() {}

    /**
     * A whole file.
     *
     * @param raster the samples in the order in which they are stored
     * @param coding how the stream is coded
     * @param exif the camera's notes
     * @param extras what else lies in or behind the stream
     */
    public static byte[] write(BufferedImage raster, Coding coding, Exif exif, Extras extras) throws IOException {
        byte[] stream = coding.encode(raster);
        ByteArrayOutputStream file = new ByteArrayOutputStream(stream.length + 20_000);
        file.write(0xFF);
        file.write(SOI);
        if (extras.jfif()) {
            segment(file, APP0, new byte[] {'J', 'F', 'I', 'F', 0, 1, 2, 1, 0, 72, 0, 72, 0, 0});
        }
        byte[] thumbnail = extras.thumbnail() ? thumbnail(raster) : new byte[0];
        segment(file, APP1, exif.segment(raster.getWidth(), raster.getHeight(), thumbnail));
        if (extras.profile()) {
            segment(file, APP2, profile());
        }
        if (!extras.comment().isEmpty()) {
            segment(file, COM, extras.comment().getBytes(StandardCharsets.UTF_8));
        }
        copyFromTables(stream, file);
        file.write(extras.behindTheEnd());
        return file.toByteArray();
    }

    /** Everything of a fresh stream but its own start and its application segments. */
    private static void copyFromTables(byte[] stream, ByteArrayOutputStream file) {
        int at = 2;
        while ((stream[at + 1] & 255) != SOS) {
            int marker = stream[at + 1] & 255;
            int length = ((stream[at + 2] & 255) << 8) | (stream[at + 3] & 255);
            boolean application = (marker >= 0xE0 && marker <= 0xEF) || marker == COM;
            if (!application) {
                file.write(stream, at, 2 + length);
            }
            at += 2 + length;
        }
        file.write(stream, at, stream.length - at);
    }

    private static void segment(ByteArrayOutputStream file, int marker, byte[] content) throws IOException {
        if (content.length > 65_533) {
            throw new IOException("segment of " + content.length + " bytes does not fit; a segment holds 65533");
        }
        file.write(0xFF);
        file.write(marker);
        file.write((content.length + 2) >> 8);
        file.write((content.length + 2) & 255);
        file.write(content);
    }

    private static byte[] profile() throws IOException {
        ByteArrayOutputStream content = new ByteArrayOutputStream();
        content.write(PROFILE_NAME);
        content.write(1);
        content.write(1);
        content.write(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
        return content.toByteArray();
    }

    private static byte[] thumbnail(BufferedImage raster) throws IOException {
        int width = raster.getWidth() >= raster.getHeight() ? 160 : 120;
        int height = 280 - width;
        BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                small.setRGB(
                        x,
                        y,
                        raster.getRGB(
                                (2 * x + 1) * raster.getWidth() / (2 * width),
                                (2 * y + 1) * raster.getHeight() / (2 * height)));
            }
        }
        return Coding.BASELINE_420.encode(small);
    }
}
