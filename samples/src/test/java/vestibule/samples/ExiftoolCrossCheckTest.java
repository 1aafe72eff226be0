package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.samples.SamplePhoto.Trait;

@DisplayName("What an independent reader finds in the Exif of sample photographs")
class ExiftoolCrossCheckTest {
    @TempDir
    Path folder;

    @BeforeEach
    void needsExiftool() {
        boolean there = java.util.Arrays.stream(
                        System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator, -1))
                .anyMatch(p -> Files.isExecutable(Path.of(p, "exiftool")));
        assumeTrue(there, "skipped: exiftool is not installed here (Debian: libimage-exiftool-perl)");
    }

    private List<String> exiftool(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("exiftool"));
        command.addAll(List.of(arguments));
        Path out = folder.resolve("out.txt");
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return Files.readAllLines(out, StandardCharsets.UTF_8);
    }

    private Path write(SamplePhoto photo) throws IOException {
        return Files.write(folder.resolve(photo.id() + ".jpg"), Samples.jpeg(photo, PhotoSize.THUMBNAIL));
    }

    private Map<String, String> read(SamplePhoto photo) throws IOException, InterruptedException {
        Map<String, String> tags = new LinkedHashMap<>();
        for (String line : exiftool("-s", "-n", write(photo).toString())) {
            int colon = line.indexOf(':');
            tags.put(line.substring(0, colon).strip(), line.substring(colon + 1).strip());
        }
        return tags;
    }

    @Test
    void nothingToComplainOf() throws IOException, InterruptedException {
        for (Trait trait : Trait.values()) {
            write(Samples.photos().stream()
                    .filter(p -> p.traits().contains(trait))
                    .findFirst()
                    .orElseThrow());
        }

        List<String> report =
                exiftool("-r", "-ext", "jpg", "-q", "-validate", "-warning", "-error", "-a", folder.toString());

        assertThat(report).isNotEmpty().allSatisfy(line -> assertThat(line).matches("========.*|Validate +: OK"));
    }

    @Test
    void cameraTimeAndExposureAreReadAsWritten() throws IOException, InterruptedException {
        assertThat(read(Samples.photo("zoe-face-front-smile")))
                .containsEntry("Make", "Okulara")
                .containsEntry("Model", "Okulara C2")
                .containsEntry("Orientation", "8")
                .containsEntry("DateTimeOriginal", "2026:03:12 09:04:54")
                .containsEntry("SubSecTimeOriginal", "42")
                .containsEntry("OffsetTimeOriginal", "+01:00")
                .containsEntry("ExposureTime", "0.008")
                .containsEntry("FNumber", "8")
                .containsEntry("ISO", "200")
                .containsEntry("FocalLength", "100")
                .containsEntry("Flash", "9")
                .containsEntry("MeteringMode", "5")
                .containsEntry("WhiteBalance", "1")
                .containsEntry("ExposureProgram", "1")
                .containsEntry("ColorSpace", "1")
                .containsEntry("ExifImageWidth", "320")
                .containsEntry("ExifImageHeight", "240")
                .containsEntry("SerialNumber", "C2007781")
                .containsEntry("LensModel", "Okulara Makro 100 mm f/2.8")
                .containsKey("ThumbnailImage")
                .doesNotContainKeys("OwnerName", "GPSLatitude");
    }

    @Test
    void ownerAndPlaceAreThereToBeTakenOut() throws IOException, InterruptedException {
        assertThat(read(Samples.photo("myron-face-front-rest-lips-apart")))
                .containsEntry("OwnerName", "O. W. Nerson")
                .containsEntry("GPSLatitude", "-47.5")
                .containsEntry("GPSLongitude", "-120.25")
                .containsEntry("OffsetTimeOriginal", "-03:30");
    }

    @Test
    void aClockWithoutOffsetSaysNothingOfOne() throws IOException, InterruptedException {
        assertThat(read(Samples.photo("nemo-face-front-rest-lips-closed")))
                .containsEntry("DateTimeOriginal", "2026:03:11 23:59:58")
                .doesNotContainKeys("OffsetTimeOriginal", "OffsetTime");
    }
}
