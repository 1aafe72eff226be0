package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Pictures of random coefficients, against libjpeg-turbo's jpegtran")
class RandomPicturesAgainstPeerTest {
    private static final long SEED = Long.getLong("vestibule.seed", 20261125L);
    private static final int[][] SAMPLINGS = {
        {0x11},
        {0x11, 0x11, 0x11},
        {0x21, 0x11, 0x11},
        {0x22, 0x11, 0x11},
        {0x12, 0x11, 0x11},
        {0x41, 0x11, 0x11},
        {0x22, 0x21, 0x12}
    };

    @TempDir
    private Path folder;

    @Test
    @DisplayName(
            "made progressive by the peer have the coefficients they were made of, and turn as their baseline does")
    void progressive() throws Exception {
        RandomPictures pictures = new RandomPictures(SEED);
        for (int number = 0; number < 40; number++) {
            RandomPictures.Picture picture = pictures.next();
            Path source = Files.write(folder.resolve("source.jpg"), picture.stream);
            List<String> words = new ArrayList<>(List.of("-progressive"));
            if (number % 2 == 0) {
                words.addAll(List.of("-restart", "3B"));
            }
            byte[] progressive = PeerTools.run("jpegtran", words, source);
            assertThat(progressive).isNotNull();
            Path file = Files.write(folder.resolve("progressive.jpg"), progressive);
            assertThat(picture.isMadeOf(Coefficients.read(file, JpegLimits.DEFAULT)))
                    .as("seed %d, picture %d", SEED, number)
                    .isTrue();
            for (Turn turn : Turn.values()) {
                if (turn.edgeLoss(picture.frame).isNone()) {
                    assertThat(PeerBytes.fromTables(turned(file, turn)))
                            .as("seed %d, picture %d, %s", SEED, number, turn)
                            .isEqualTo(PeerBytes.fromTables(turned(source, turn)));
                }
            }
        }
    }

    @Test
    @DisplayName("of every remainder at the edges come out byte for byte alike in every turn that keeps all pixels")
    void remainders() throws Exception {
        RandomPictures pictures = new RandomPictures(SEED + 1);
        int compared = 0;
        for (int remainder = 0; remainder < 16; remainder++) {
            int[] sampling = SAMPLINGS[remainder % SAMPLINGS.length];
            for (int[] size : new int[][] {{32 + remainder, 32}, {32, 32 + remainder}}) {
                RandomPictures.Picture picture = pictures.next(sampling, size[0], size[1]);
                Path source = Files.write(folder.resolve("source.jpg"), picture.stream);
                for (Turn turn : Turn.values()) {
                    byte[] peer = PeerTools.turned(source, turn, "-perfect");
                    if (peer != null && turn.edgeLoss(picture.frame).isNone()) {
                        assertThat(Arrays.equals(
                                        PeerBytes.fromTables(turned(source, turn)), PeerBytes.fromTables(peer)))
                                .as("seed %d, %d x %d, %s", SEED, size[0], size[1], turn)
                                .isTrue();
                        compared++;
                    }
                }
            }
        }
        assertThat(compared).isGreaterThan(100);
    }

    private static byte[] turned(Path source, Turn turn) throws Exception {
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        Recoder.recode(source, Recoding.of(turn).with(Recoding.Codes.STANDARD), JpegLimits.DEFAULT, target);
        return target.toByteArray();
    }
}
