package vestibule.validator;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Base64;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.TransferSyntax;

/** A small picture of a photograph for a report, made by leaving pixels out; for looking, not for judging. */
final class Thumbnail {

    private static final int EDGE = 160;
    private static final long LONGEST = 64L << 20;
    private static final long MOST_PIXELS = 120_000_000;

    private Thumbnail() {}

    /** As a {@code data:} reference; empty for what is no photograph in JPEG Baseline or cannot be decoded. */
    static Optional<String> of(Subject subject) throws IOException {
        Optional<Bulk> stream = subject.dataSet()
                .find(Attributes.PIXEL_DATA)
                .filter(element -> element.value() instanceof Value.Fragments)
                .map(element -> Bulk.concat(((Value.Fragments) element.value()).fragments()))
                .filter(bulk -> bulk.length() > 0 && bulk.length() <= LONGEST);
        boolean baseline = subject.transferSyntax().uid().equals(TransferSyntax.JPEG_BASELINE.uid());
        if (!subject.isPhotograph() || !baseline || stream.isEmpty()) {
            return Optional.empty();
        }
        return decoded(stream.get().bytes(LONGEST)).flatMap(Thumbnail::reference);
    }

    private static Optional<BufferedImage> decoded(byte[] stream) {
        ImageIO.setUseCache(false);
        Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("jpeg");
        if (!readers.hasNext()) {
            return Optional.empty();
        }
        ImageReader reader = readers.next();
        try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(stream))) {
            reader.setInput(in, true, true);
            int width = reader.getWidth(0);
            int height = reader.getHeight(0);
            if ((long) width * height > MOST_PIXELS) {
                return Optional.empty();
            }
            int step = Math.max(1, Math.max(width, height) / EDGE);
            ImageReadParam parameters = reader.getDefaultReadParam();
            parameters.setSourceSubsampling(step, step, 0, 0);
            return Optional.of(reader.read(0, parameters));
        } catch (IOException | RuntimeException undecodable) {
            // the rules about the stream say what is wrong with it; a report can do without the picture
            return Optional.empty();
        } finally {
            reader.dispose();
        }
    }

    private static Optional<String> reference(BufferedImage picture) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            if (!ImageIO.write(picture, "jpeg", bytes)) {
                return Optional.empty();
            }
        } catch (IOException unwritable) {
            return Optional.empty();
        }
        return Optional.of("data:image/jpeg;base64," + Base64.getEncoder().encodeToString(bytes.toByteArray()));
    }
}
