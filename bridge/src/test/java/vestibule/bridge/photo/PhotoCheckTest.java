package vestibule.bridge.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.awt.image.ConvolveOp;
import java.awt.image.Kernel;
import java.awt.image.RescaleOp;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.jpeg.Turn;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePhoto;
import vestibule.samples.Samples;

@DisplayName("The look at how a photograph came out")
class PhotoCheckTest {

    private static final PhotoSize SIZE = new PhotoSize(960, 720);

    /** For what is done with every sample: drawing them takes the longest. */
    private static final PhotoSize SMALL = new PhotoSize(480, 360);

    @TempDir
    Path folder;

    private static SamplePhoto front() {
        return Samples.photos().stream()
                .filter(photo -> photo.view().equals("teeth-front-occlusion"))
                .findFirst()
                .orElseThrow();
    }

    private static BufferedImage picture() throws IOException {
        return ImageIO.read(new ByteArrayInputStream(Samples.jpeg(front(), SIZE)));
    }

    private PhotoCheck check(byte[] jpeg) throws Exception {
        return PhotoCheck.of(Photo.read(Files.write(folder.resolve("photo.jpg"), jpeg)))
                .orElseThrow();
    }

    private PhotoCheck check(BufferedImage picture) throws Exception {
        Path file = folder.resolve("changed.jpg");
        ImageIO.write(picture, "jpeg", file.toFile());
        return PhotoCheck.of(Photo.read(file)).orElseThrow();
    }

    /** Blurs by a bell of this standard deviation in pixels, along rows and then along columns. */
    private static BufferedImage blurred(BufferedImage source, double deviation) {
        int reach = (int) Math.ceil(3 * deviation);
        float[] bell = new float[2 * reach + 1];
        double sum = 0;
        for (int at = -reach; at <= reach; at++) {
            bell[at + reach] = (float) Math.exp(-at * at / (2 * deviation * deviation));
            sum += bell[at + reach];
        }
        for (int at = 0; at < bell.length; at++) {
            bell[at] /= (float) sum;
        }
        BufferedImage rows =
                new ConvolveOp(new Kernel(bell.length, 1, bell), ConvolveOp.EDGE_NO_OP, null).filter(source, null);
        return new ConvolveOp(new Kernel(1, bell.length, bell), ConvolveOp.EDGE_NO_OP, null)
                .filter(rows, null)
                .getSubimage(reach, reach, source.getWidth() - 2 * reach, source.getHeight() - 2 * reach);
    }

    private static BufferedImage lit(BufferedImage source, float factor) {
        return new RescaleOp(factor, 0, null).filter(source, null);
    }

    @Test
    @DisplayName("finds nothing to say of any sample photograph")
    void samples() throws Exception {
        for (SamplePhoto photo : Samples.photos()) {
            PhotoCheck check = check(Samples.jpeg(photo, SMALL));
            assertThat(check.notes(Set.of(), Turn.NONE))
                    .as("%s %s", photo.id(), check)
                    .isEmpty();
        }
    }

    @Test
    @DisplayName("sees a picture become softer, and says so once its edges are blurred by some pixels")
    void soft() throws Exception {
        double before = 1;
        for (double deviation : new double[] {1, 2, 4, 8}) {
            PhotoCheck check = check(blurred(picture(), deviation));
            // Beyond four pixels hardly any fine contrast is left, and what is found is the rounding of the JPEG
            // itself.
            if (deviation <= 4) {
                assertThat(check.sharpness()).as("blurred by %s", deviation).isLessThan(before);
                before = check.sharpness();
            }
            List<String> notes = check.notes(Set.of(), Turn.NONE);
            if (deviation < 2) {
                assertThat(notes).isEmpty();
            }
            if (deviation > 3) {
                assertThat(notes).hasSize(1);
                assertThat(notes.get(0)).contains("soft", "in focus");
            }
        }
    }

    @Test
    @DisplayName("says that a picture is burnt out, too dark, or mostly black, with the figure")
    void light() throws Exception {
        PhotoCheck bright = check(lit(picture(), 4));
        assertThat(bright.burntOut()).isGreaterThan(0.15);
        assertThat(bright.notes(Set.of(), Turn.NONE))
                .anyMatch(note -> note.matches("\\d+ % of the picture is white .*"));

        PhotoCheck dark = check(lit(picture(), 0.2f));
        assertThat(dark.brightest()).isLessThan(60);
        assertThat(dark.notes(Set.of(), Turn.NONE)).anyMatch(note -> note.contains("too dark"));

        BufferedImage black = picture();
        int[] nothing = new int[black.getWidth() * (black.getHeight() - 80)];
        Arrays.fill(nothing, 0xFF000000);
        black.setRGB(0, 0, black.getWidth(), black.getHeight() - 80, nothing, 0, black.getWidth());
        assertThat(check(black).nearlyBlack()).isGreaterThan(0.85);
        assertThat(check(black).notes(Set.of(), Turn.NONE)).anyMatch(note -> note.contains("nearly black"));
    }

    @Test
    @DisplayName("says that the frame lies otherwise than usual for the view, after Exif has turned it upright")
    void frame() throws Exception {
        PhotoCheck check = check(Samples.jpeg(front(), SIZE));
        assertThat(check.notes(Set.of(FrameShape.LANDSCAPE), Turn.NONE)).isEmpty();
        assertThat(check.notes(Set.of(FrameShape.LANDSCAPE, FrameShape.PORTRAIT), Turn.NONE))
                .isEmpty();
        assertThat(check.notes(Set.of(FrameShape.PORTRAIT), Turn.ROTATE_90)).isEmpty();
        assertThat(check.notes(Set.of(FrameShape.PORTRAIT), Turn.NONE))
                .singleElement()
                .asString()
                .contains("landscape", "portrait is usual");
        SamplePhoto turned = Samples.photos().stream()
                .filter(photo -> photo.exifOrientation() >= 5)
                .findFirst()
                .orElseThrow();
        Photo photo = Photo.read(Files.write(folder.resolve("turned.jpg"), Samples.jpeg(turned, SIZE)));
        FrameShape asRecorded = FrameShape.of(
                photo.jpeg().frame().samplesPerLine(), photo.jpeg().frame().lines());
        assertThat(PhotoCheck.shape(photo)).isNotEqualTo(asRecorded);
    }

    @Test
    @DisplayName("is silent, and stops nobody, where the data ends early")
    void damaged() throws Exception {
        byte[] jpeg = Samples.jpeg(front(), SIZE);
        byte[] cut = Arrays.copyOf(jpeg, jpeg.length - jpeg.length / 3);
        cut[cut.length - 2] = (byte) 0xFF;
        cut[cut.length - 1] = (byte) 0xD9;
        Photo photo = Photo.read(Files.write(folder.resolve("cut.jpg"), cut));
        assertThat(PhotoCheck.of(photo)).isEqualTo(Optional.empty());
    }
}
