package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.jpeg.Turn;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("vestibule wrap --derived-from: a copy shows what its source shows, and lies as that lies")
class CopyTest {

    private static final String[] MIRROR = {"--view", "occlusal-maxillary-mirror", "--capture", "mirror-front"};

    @TempDir
    Path folder;

    private Path photo(String id) throws IOException {
        return Files.write(folder.resolve(id + ".jpg"), Samples.jpeg(Samples.photo(id), PhotoSize.THUMBNAIL));
    }

    private Ran wrap(Path photo, String out, String... more) {
        return Ran.vestibule(Stream.concat(
                        Stream.of(
                                "wrap",
                                photo.toString(),
                                "--out",
                                folder.resolve(out).toString(),
                                "--patient-id",
                                "PG-0001",
                                "--patient-name",
                                "Exempel^Zoe"),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    private Path finished(Path photo, String... more) {
        Ran ran = wrap(photo, "finished.dcm", more);
        assertThat(ran.exit()).as(ran.err()).isZero();
        return folder.resolve("finished.dcm");
    }

    private Ran copy(Path picture, Path of, String... more) {
        return wrap(
                picture,
                "copy.dcm",
                Stream.concat(
                                Stream.of("--derived-from", of.toString(), "--derivation", "Gingiva greyed"),
                                Stream.of(more))
                        .toArray(String[]::new));
    }

    private void refused(Ran ran, String... words) {
        assertThat(ran.err()).contains(words);
        assertThat(ran.err().strip().lines()).hasSize(1);
        assertThat(ran.exit()).isEqualTo(1);
        assertThat(folder.resolve("copy.dcm")).doesNotExist();
    }

    private Path drawn(BufferedImage image) throws IOException {
        Path file = folder.resolve("drawn.jpg");
        assertThat(ImageIO.write(image, "jpeg", file.toFile())).isTrue();
        return file;
    }

    /** Grey, half as large, brighter, with an arrow and words. */
    private Path annotated(Path picture) throws IOException {
        BufferedImage whole = ImageIO.read(picture.toFile());
        int width = whole.getWidth() / 2;
        int height = whole.getHeight() / 2;
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
        Graphics2D graphics = image.createGraphics();
        graphics.drawImage(whole, 0, 0, width, height, null);
        graphics.setColor(new Color(255, 255, 255, 60));
        graphics.fillRect(0, 0, width, height);
        graphics.setColor(Color.WHITE);
        graphics.fillRect(width / 2, height / 3, width / 4, height / 20);
        graphics.drawString("before bleaching", 4, height - 6);
        graphics.dispose();
        return drawn(image);
    }

    @Test
    @DisplayName("one made of the camera's own mirror picture is refused, with the turn that lays it right")
    void ofTheRawPicture() throws IOException {
        Path raw = photo("zoe-occlusal-maxillary-mirror");
        Path finished = finished(raw, MIRROR);
        refused(copy(raw, finished, MIRROR), "lies otherwise", "--by flip-vertical.");
        refused(copy(annotated(raw), finished, MIRROR), "lies otherwise", "--by flip-vertical.");
        Path turned = folder.resolve("turned.jpg");
        Ran turn = Ran.vestibule("turn", raw.toString(), turned.toString(), "--by", "flip-vertical");
        assertThat(turn.exit()).as(turn.err()).isZero();
        Ran copy = copy(annotated(turned), finished, MIRROR);
        assertThat(copy.exit()).as(copy.err()).isZero();
        assertThat(copy.err()).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(value = Turn.class, mode = EnumSource.Mode.EXCLUDE, names = "NONE")
    @DisplayName("one that lies in any other way is refused, also where a camera's note says how it is seen")
    void lyingOtherwise(Turn turn) throws IOException {
        for (String id : new String[] {"zoe-teeth-front-occlusion", "zoe-teeth-buccal-left-direct"}) {
            Path picture = photo(id);
            String view = id.substring("zoe-".length());
            Files.deleteIfExists(folder.resolve("finished.dcm"));
            Path finished = finished(picture, "--view", view);
            Path turned = folder.resolve(id + turn + ".jpg");
            assertThat(Ran.vestibule("turn", picture.toString(), turned.toString(), "--by", TurnCommand.word(turn))
                            .exit())
                    .isZero();
            refused(copy(turned, finished, "--view", view), "--by %s.".formatted(TurnCommand.word(turn.inverse())));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"zoe-teeth-front-occlusion", "zoe-teeth-buccal-left-direct", "zoe-tooth-closeup"})
    @DisplayName("one that was greyed, made smaller and written on is filed without a question")
    void annotated(String id) throws IOException {
        Path picture = photo(id);
        String[] view = id.equals("zoe-tooth-closeup")
                ? new String[] {"--view", "tooth-closeup", "--capture", "direct"}
                : new String[] {"--view", id.substring("zoe-".length())};
        Ran copy = copy(annotated(picture), finished(picture, view), view);
        assertThat(copy.exit()).as(copy.err()).isZero();
        assertThat(copy.err()).isEmpty();
    }

    @Test
    @DisplayName("another picture is refused, and so is a picture of nothing")
    void anotherPicture() throws IOException {
        Path picture = photo("zoe-teeth-buccal-left-direct");
        String[] view = {"--view", "teeth-buccal-left-direct"};
        Path finished = finished(picture, view);
        refused(copy(photo("zoe-tooth-closeup"), finished, view), "does not look like");
        refused(
                copy(drawn(new BufferedImage(320, 240, BufferedImage.TYPE_BYTE_GRAY)), finished, view),
                "does not look like");
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    @DisplayName("where a flat or symmetrical picture tells nothing, the copy is filed and a person asked to look")
    void tellsNothing(boolean flat) throws IOException {
        BufferedImage image = new BufferedImage(320, 240, BufferedImage.TYPE_BYTE_GRAY);
        Graphics2D graphics = image.createGraphics();
        graphics.setColor(Color.WHITE);
        if (!flat) {
            graphics.fillOval(80, 60, 160, 120);
        }
        graphics.dispose();
        Path picture = drawn(image);
        String[] view = {"--view", "teeth-front-occlusion"};
        Ran copy = copy(picture, finished(picture, view), view);
        assertThat(copy.exit()).as(copy.err()).isZero();
        assertThat(copy.err()).contains("cannot be told", "look whether it does");
    }

    @ParameterizedTest(name = "of {0} as {1}")
    @DisplayName("one of another view or side is refused, though it faces the same way")
    @CsvSource({
        "teeth-buccal-right-direct, palatal-maxillary-left, the view teeth-buccal-right-direct",
        "teeth-buccal-right-direct, cast-buccal-right, the view teeth-buccal-right-direct",
        "teeth-front-occlusion, teeth-front-apart, the view teeth-front-occlusion",
    })
    void otherView(String of, String as, String words) throws IOException {
        Path picture = photo("zoe-teeth-front-occlusion");
        Path finished = finished(picture, "--view", of);
        String capture = as.startsWith("palatal") ? "mirror-front" : "direct";
        refused(copy(picture, finished, "--view", as, "--capture", capture), words, "is not filed under");
    }

    @Test
    @DisplayName("of a source that names no view, another side and another region are refused")
    void foreignSource() throws IOException {
        Path picture = photo("zoe-teeth-front-occlusion");
        DicomFile ours = DicomFile.read(finished(picture, "--view", "teeth-buccal-right-direct"));
        Path foreign = folder.resolve("foreign.dcm");
        DicomFile.write(
                foreign,
                ours.dataSet().toBuilder()
                        .remove(Attributes.ACQUISITION_CONTEXT_DESCRIPTION)
                        .build(),
                ours.transferSyntax());
        refused(
                copy(picture, foreign, "--view", "palatal-maxillary-left", "--capture", "mirror-front"),
                "with another side");
        refused(copy(picture, foreign, "--view", "face-profile-right-rest"), "is not filed under");
        assertThat(copy(picture, foreign, "--view", "teeth-buccal-right-direct").exit())
                .isZero();
    }

    @Test
    @DisplayName("a close-up that shares the direction may be made of the whole picture, and shows one side of it")
    void closeUp() throws IOException {
        Path picture = photo("zoe-teeth-front-occlusion");
        Path finished = finished(picture, "--view", "teeth-front-occlusion");
        Ran copy =
                copy(picture, finished, "--view", "tooth-closeup", "--like", "teeth-front-occlusion", "--teeth", "11");
        assertThat(copy.exit()).as(copy.err()).isZero();
        Files.delete(folder.resolve("copy.dcm"));
        refused(
                copy(picture, finished, "--view", "tooth-closeup", "--like", "anterior-maxillary-front"),
                "the view teeth-front-occlusion");
    }

    @Test
    @DisplayName("an unpacked picture in the object is compared as well")
    void unpackedSource() throws IOException {
        Path picture = photo("zoe-occlusal-maxillary-mirror");
        Path turned = folder.resolve("turned.jpg");
        Ran turn = Ran.vestibule("turn", picture.toString(), turned.toString(), "--by", "flip-vertical");
        assertThat(turn.exit()).as(turn.err()).isZero();
        BufferedImage image = ImageIO.read(turned.toFile());
        byte[] samples = new byte[3 * image.getWidth() * image.getHeight()];
        for (int at = 0; at < samples.length / 3; at++) {
            int pixel = image.getRGB(at % image.getWidth(), at / image.getWidth());
            samples[3 * at] = (byte) (pixel >> 16);
            samples[3 * at + 1] = (byte) (pixel >> 8);
            samples[3 * at + 2] = (byte) pixel;
        }
        DicomFile finished = DicomFile.read(finished(picture, MIRROR));
        Path unpacked = folder.resolve("unpacked.dcm");
        DicomFile.write(
                unpacked,
                finished.dataSet().toBuilder()
                        .put(Attributes.PHOTOMETRIC_INTERPRETATION, "RGB")
                        .put(new Element(Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Binary(Bulk.of(samples))))
                        .build(),
                TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        refused(copy(picture, unpacked, MIRROR), "--by flip-vertical.");
        Ran copy = copy(annotated(turned), unpacked, MIRROR);
        assertThat(copy.exit()).as(copy.err()).isZero();
        assertThat(copy.err()).isEmpty();
    }
}
