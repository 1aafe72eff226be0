package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.samples.drawing.Orientation;
import vestibule.samples.drawing.Turn;

@DisplayName("Patient Orientation of sample photographs (PS3.3 C.7.6.1.1.1)")
class OrientationOfPhotosTest {

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({
        // trade facts F-10 to F-13, what the camera really records
        "zoe-teeth-buccal-right-mirror, mirror-front, P\\F",
        "hanako-teeth-buccal-right-mirror, mirror-behind, A\\H",
        "zoe-teeth-buccal-left-mirror, mirror-front, A\\F",
        "hanako-teeth-buccal-left-mirror, mirror-behind, P\\H",
        "zoe-occlusal-maxillary-mirror, mirror-front, L\\A",
        "hanako-occlusal-maxillary-mirror, mirror-behind, R\\P",
        "zoe-occlusal-mandibular-mirror, mirror-front, L\\P",
        "hanako-occlusal-mandibular-mirror, mirror-behind, R\\A",
        // Exif 8 is shown turned by 270 degrees clockwise, Exif 6 by 90
        "zoe-face-front-smile, direct, H\\L",
        "hanako-face-front-rest-lips-closed, direct, F\\R"
    })
    void storedLettersAreThoseOfTheRawPicture(String id, String capture, String letters) {
        SamplePhoto photo = Samples.photo(id);

        assertThat(photo.capture().label()).isEqualTo(capture);
        assertThat(photo.storedOrientation()).isEqualTo(letters);
    }

    @Test
    void turningByExifAndFlippingOnceLeadsFromStoredToFinal() {
        for (SamplePhoto photo : Samples.photos()) {
            Orientation upright =
                    Orientation.of(photo.storedOrientation()).after(Turn.uprightBy(photo.exifOrientation()));
            if (photo.capture() == Capture.DIRECT) {
                assertThat(upright).as(photo.id()).hasToString(photo.finalOrientation());
            } else {
                assertThat(photo.finalOrientation())
                        .as(photo.id())
                        .isIn(
                                upright.after(Turn.FLIP_HORIZONTAL).toString(),
                                upright.after(Turn.FLIP_VERTICAL).toString())
                        .isNotEqualTo(upright.after(Turn.ROTATE_180).toString());
            }
        }
    }

    @Test
    void everyViewAgreesWithTheCatalogueOfViews() throws IOException {
        Optional<Path> views = shared().map(p -> p.resolve("trade/views.json")).filter(Files::exists);
        assumeTrue(views.isPresent(), "skipped: the catalogue of views is not beside this repository");
        String text = Files.readString(views.get());

        for (SamplePhoto photo : Samples.photos()) {
            int at = text.indexOf("\"id\": \"" + photo.view() + "\"");
            assertThat(at).as("view %s is in the catalogue", photo.view()).isPositive();
            Matcher matcher = Pattern.compile("\"patient_orientation\": \\{\\s*\"value\": \"([^\"]*)\"")
                    .matcher(text);
            assertThat(matcher.find(at)).isTrue();
            assertThat(photo.finalOrientation())
                    .as(photo.id())
                    .isEqualTo(matcher.group(1).replace("\\\\", "\\"));
        }
    }

    private static Optional<Path> shared() {
        String named = System.getenv("VESTIBULE_SHARED");
        if (named != null) {
            return Optional.of(Path.of(named));
        }
        Path folder = Path.of("").toAbsolutePath();
        while (folder != null && !Files.isDirectory(folder.resolve("shared"))) {
            folder = folder.getParent();
        }
        return Optional.ofNullable(folder).map(f -> f.resolve("shared"));
    }
}
