package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.samples.SamplePhoto.Trait;

@DisplayName("Sample photographs as files")
class CameraFilesTest {
    private static final int SOF0 = 0xC0;
    private static final int SOF2 = 0xC2;
    private static final int APP0 = 0xE0;
    private static final int APP1 = 0xE1;
    private static final int APP2 = 0xE2;
    private static final int COM = 0xFE;

    static Stream<SamplePhoto> oneOfEachTrait() {
        return Arrays.stream(Trait.values())
                .map(trait -> Samples.photos().stream()
                        .filter(p -> p.traits().contains(trait))
                        .findFirst()
                        .orElseThrow());
    }

    private static byte[] file(SamplePhoto photo) {
        return Samples.jpeg(photo, PhotoSize.THUMBNAIL);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("oneOfEachTrait")
    void theStreamHasTheSizeTheCatalogueSays(SamplePhoto photo) throws IOException {
        BufferedImage image = ImageIO.read(new ByteArrayInputStream(file(photo)));

        assertThat(image.getWidth()).isEqualTo(photo.storedWidth(PhotoSize.THUMBNAIL));
        assertThat(image.getHeight()).isEqualTo(photo.storedHeight(PhotoSize.THUMBNAIL));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("oneOfEachTrait")
    void theFileCarriesWhatTheCatalogueSaysAndNothingElse(SamplePhoto photo) {
        Segments segments = Segments.of(file(photo));

        assertThat(segments.has(APP0)).as("JFIF").isEqualTo(photo.traits().contains(Trait.JFIF));
        assertThat(segments.has(APP2)).as("profile").isEqualTo(photo.traits().contains(Trait.PROFILE));
        assertThat(segments.has(COM)).as("comment").isEqualTo(photo.traits().contains(Trait.COMMENT));
        assertThat(segments.has(SOF2))
                .as("progressive")
                .isEqualTo(photo.traits().contains(Trait.PROGRESSIVE));
        assertThat(segments.first(APP1)
                        .starts("Exif\0\0" + (photo.traits().contains(Trait.LITTLE_ENDIAN) ? "II" : "MM")))
                .as("Exif in the right byte order")
                .isTrue();
    }

    @ParameterizedTest(name = "{0}: sampling of Y, Cb, Cr is {1}")
    @CsvSource({
        "zoe-teeth-front-occlusion, 22 11 11",
        "nina-teeth-front-occlusion, 21 11 11",
        "nina-teeth-front-apart, 11 11 11",
        "nina-teeth-buccal-left-direct, 11"
    })
    void theFrameHeaderHasTheSampling(String id, String factors) {
        byte[] frame = Segments.of(file(Samples.photo(id))).first(SOF0).content();

        StringBuilder found = new StringBuilder();
        for (int i = 0; i < frame[5]; i++) {
            found.append(i == 0 ? "" : " ").append(String.format("%02x", frame[7 + 3 * i]));
        }
        assertThat(found).hasToString(factors);
    }

    @Test
    void behindTheEndOfOneImageLiesTheBeginningOfAnother() {
        byte[] file = file(Samples.photo("myron-teeth-front-occlusion"));
        int end = file.length - 4096;

        assertThat(Arrays.copyOfRange(file, end - 2, end)).containsExactly(0xFF, 0xD9);
        assertThat(Arrays.copyOfRange(file, end, end + 2)).containsExactly(0xFF, 0xD8);
    }

    @Test
    void drawingAgainGivesTheSameBytes() {
        for (String id : List.of("zoe-face-front-smile", "hanako-shade-tab", "tonik-occlusal-maxillary-mirror")) {
            SamplePhoto photo = Samples.photo(id);

            assertThat(Samples.develop(photo, PhotoSize.THUMBNAIL))
                    .as(id)
                    .isEqualTo(Samples.develop(photo, PhotoSize.THUMBNAIL));
        }
    }

    @Test
    void twelveMegapixelsCanBeHad() throws IOException {
        byte[] file = Samples.jpeg(Samples.photo("zoe-tooth-closeup"), PhotoSize.TWELVE_MEGAPIXELS);
        byte[] frame = Segments.of(file).first(SOF0).content();

        assertThat(((frame[1] & 255) << 8) | (frame[2] & 255)).isEqualTo(3000);
        assertThat(((frame[3] & 255) << 8) | (frame[4] & 255)).isEqualTo(4000);
    }
}
