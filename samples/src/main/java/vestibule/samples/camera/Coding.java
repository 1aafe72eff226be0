package vestibule.samples.camera;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Locale;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.metadata.IIOMetadataNode;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.w3c.dom.NodeList;

/** How the samples of a picture are coded. */
public enum Coding {
    /** Baseline, colour at half resolution both ways: what most cameras write. */
    BASELINE_420(2, 2, false, false),
    /** Baseline, colour at half resolution along the rows. */
    BASELINE_422(2, 1, false, false),
    /** Baseline, colour at full resolution. */
    BASELINE_444(1, 1, false, false),
    /** Progressive, colour at half resolution both ways. */
    PROGRESSIVE_420(2, 2, true, false),
    /** Baseline with one component. */
    BASELINE_GREY(1, 1, false, true);

    private static final float QUALITY = 0.9f;
    private static final String FORMAT = "javax_imageio_jpeg_image_1.0";

    private final int across;
    private final int down;
    private final boolean progressive;
    private final boolean grey;

    Coding(int across, int down, boolean progressive, boolean grey) {
        this.across = across;
        this.down = down;
        this.progressive = progressive;
        this.grey = grey;
    }

    byte[] encode(BufferedImage colour) throws IOException {
        BufferedImage image = grey ? greyOf(colour) : colour;
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        try {
            ImageWriteParam parameters = writer.getDefaultWriteParam();
            parameters.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            parameters.setCompressionQuality(QUALITY);
            parameters.setProgressiveMode(progressive ? ImageWriteParam.MODE_DEFAULT : ImageWriteParam.MODE_DISABLED);
            IIOMetadata metadata = writer.getDefaultImageMetadata(new ImageTypeSpecifier(image), parameters);
            if (!grey) {
                sample(metadata);
            }
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
                writer.setOutput(out);
                writer.write(null, new IIOImage(image, null, metadata), parameters);
            }
            return bytes.toByteArray();
        } finally {
            writer.dispose();
        }
    }

    private void sample(IIOMetadata metadata) throws IOException {
        IIOMetadataNode root = (IIOMetadataNode) metadata.getAsTree(FORMAT);
        NodeList components = root.getElementsByTagName("componentSpec");
        if (components.getLength() != 3) {
            throw new IOException(
                    String.format(Locale.ROOT, "JPEG writer: found %d components, expected 3", components.getLength()));
        }
        IIOMetadataNode luminance = (IIOMetadataNode) components.item(0);
        luminance.setAttribute("HsamplingFactor", Integer.toString(across));
        luminance.setAttribute("VsamplingFactor", Integer.toString(down));
        metadata.setFromTree(FORMAT, root);
    }

    private static BufferedImage greyOf(BufferedImage colour) {
        BufferedImage grey = new BufferedImage(colour.getWidth(), colour.getHeight(), BufferedImage.TYPE_BYTE_GRAY);
        byte[] line = new byte[colour.getWidth()];
        for (int y = 0; y < colour.getHeight(); y++) {
            for (int x = 0; x < line.length; x++) {
                int rgb = colour.getRGB(x, y);
                line[x] = (byte)
                        ((299 * ((rgb >> 16) & 255) + 587 * ((rgb >> 8) & 255) + 114 * (rgb & 255) + 500) / 1000);
            }
            grey.getRaster().setDataElements(0, y, line.length, 1, line);
        }
        return grey;
    }
}
