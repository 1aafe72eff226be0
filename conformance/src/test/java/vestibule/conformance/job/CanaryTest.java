package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.Dciodvfy;

/** {@code -Dvestibule.canaries=1000} makes that many objects; an ordinary run 60. */
@DisplayName("What a camera notes beside the picture stays out (design, section 5)")
class CanaryTest {
    private static final long SEED = Long.getLong("vestibule.seed", 20261125L);
    private static final int OBJECTS = Integer.getInteger("vestibule.canaries", 60);
    private static final int CHECKED_BY_PEER = 60;
    private static final List<Charset> CHARSETS =
            List.of(StandardCharsets.US_ASCII, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE);

    @TempDir
    private static Path folder;

    @Test
    @DisplayName(
            "a word in Exif, maker note, XMP, IPTC, comment, JFIF, profile, index, thumbnail and after the end is in no object and no message")
    void nowhere() throws IOException {
        Dciodvfy dciodvfy = Dciodvfy.find();
        for (int number = 0; number < OBJECTS; number++) {
            CanaryPhotograph canary = new CanaryPhotograph(SEED + number);
            byte[] file = canary.file();
            assertThat(places(file, canary.word())).as("the photograph itself").isGreaterThan(15);
            Path photo = Files.write(folder.resolve("photo.jpg"), file);
            Path object = folder.resolve("object.dcm");
            Path raw = folder.resolve("raw.dcm");
            Commands.Said said = wrap(photo, object, raw, number % 2 == 0);
            String where = "seed " + SEED + ", photograph " + number;
            assertThat(said.exit()).as(where + " " + said.err()).isZero();
            assertThat(said.out() + said.err()).as(where).doesNotContain(canary.word());
            for (Path made : List.of(object, raw)) {
                if (Files.exists(made)) {
                    assertThat(places(Files.readAllBytes(made), canary.word()))
                            .as("%s, %s", where, made.getFileName())
                            .isZero();
                    if (number < CHECKED_BY_PEER) {
                        assertThat(dciodvfy.findings(made)).as(where).noneMatch(finding -> finding.startsWith("Error"));
                    }
                    Files.delete(made);
                }
            }
        }
    }

    private static Commands.Said wrap(Path photo, Path object, Path raw, boolean mirror) {
        List<String> words = new ArrayList<>(List.of("wrap", photo.toString(), "--out", object.toString()));
        words.addAll(List.of("--view", mirror ? "occlusal-maxillary-mirror" : "teeth-front-occlusion"));
        words.addAll(List.of("--capture", mirror ? "mirror-front" : "direct", "--raw-out", raw.toString()));
        words.addAll(List.of("--patient-id", "PG-0001", "--patient-name", "Exempel^Zoe"));
        return Commands.run(words);
    }

    /** How often the word stands in these bytes, in any coding of characters. */
    private static int places(byte[] bytes, String word) {
        String text = new String(bytes, StandardCharsets.ISO_8859_1);
        int places = 0;
        for (Charset charset : CHARSETS) {
            String coded = new String(word.getBytes(charset), StandardCharsets.ISO_8859_1);
            for (int at = text.indexOf(coded); at >= 0; at = text.indexOf(coded, at + 1)) {
                places++;
            }
        }
        return places;
    }
}
