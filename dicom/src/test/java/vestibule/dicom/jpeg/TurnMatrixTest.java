package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every sampling with every remainder at both edges, with restart markers and without, baseline and progressive, in all
 * eight turns. An ordinary run takes a drawn lot of them; {@code -Dvestibule.matrix=whole} takes all, in some minutes.
 */
@DisplayName("The matrix of turns, against libjpeg-turbo's jpegtran")
class TurnMatrixTest {
    private static final long SEED = Long.getLong("vestibule.seed", 20261125L);
    private static final int DRAWN = 120;
    private static final int ASYMMETRIC = 6;
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

    /** @param number which of the samplings */
    private record Case(int number, int width, int height, boolean restarts, boolean progressive) {
        int[] sampling() {
            return SAMPLINGS[number];
        }

        @Override
        public String toString() {
            return "sampling " + number + " " + width + "x" + height + (restarts ? " restarts" : "")
                    + (progressive ? " progressive" : " baseline");
        }
    }

    private static List<Case> cases() {
        List<Case> cases = new ArrayList<>();
        for (int sampling = 0; sampling < SAMPLINGS.length; sampling++) {
            for (int remainder = 0; remainder < 256; remainder++) {
                for (int kind = 0; kind < 4; kind++) {
                    cases.add(new Case(
                            sampling, 32 + (remainder & 15), 32 + (remainder >> 4), (kind & 1) == 1, kind >= 2));
                }
            }
        }
        return cases;
    }

    @Test
    @DisplayName("has the peer's coefficients in every case, and its bytes with the same tables")
    void matrix() throws Exception {
        List<Case> cases = cases();
        boolean whole = "whole".equals(System.getProperty("vestibule.matrix"));
        if (!whole) {
            Collections.shuffle(cases, new Random(SEED));
            cases = cases.subList(0, DRAWN);
        }
        RandomPictures pictures = new RandomPictures(SEED);
        int perfect = 0;
        for (Case one : cases) {
            perfect += turnsOf(one, pictures.next(one.sampling(), one.width, one.height, one.restarts));
        }
        System.out.println("seed " + SEED + ": " + cases.size() + " pictures in 8 turns, " + perfect
                + " of them without a partial block in the way");
        assertThat(perfect).isGreaterThan(2 * cases.size());
    }

    /** How many of the turns needed no trimming. */
    private int turnsOf(Case one, RandomPictures.Picture picture) throws Exception {
        Path source = Files.write(folder.resolve("source.jpg"), picture.stream);
        if (one.progressive) {
            List<String> words = one.restarts ? List.of("-progressive", "-restart", "3B") : List.of("-progressive");
            byte[] progressive = PeerTools.run("jpegtran", words, source);
            assumeTrue(progressive != null, "jpegtran makes no progressive picture");
            Files.write(source, progressive);
        }
        assertThat(picture.isMadeOf(Coefficients.read(source, JpegLimits.DEFAULT)))
                .as("seed %d, %s", SEED, one)
                .isTrue();
        int perfect = 0;
        for (Turn turn : Turn.values()) {
            boolean without = turn.edgeLoss(picture.frame).isNone();
            byte[] peer = PeerTools.turned(source, turn, without ? "-perfect" : "-trim");
            if (without) {
                perfect++;
                there(source, turn, one);
            }
            // An asymmetric sampling lets us keep more at the edge than the peer, which trims to the largest factors
            if (peer != null && (without || one.number < ASYMMETRIC)) {
                alike(source, turn, peer, one);
            }
        }
        return perfect;
    }

    private void alike(Path source, Turn turn, byte[] peer, Case one) throws IOException {
        Path theirs = Files.write(folder.resolve("theirs.jpg"), peer);
        byte[] ours = turned(source, Recoding.of(turn).with(Recoding.Edge.TRIM).with(Recoding.Codes.STANDARD));
        Path file = Files.write(folder.resolve("ours.jpg"), ours);
        assertThat(Coefficients.read(file, JpegLimits.DEFAULT))
                .as("seed %d, %s, %s", SEED, one, turn)
                .isEqualTo(Coefficients.read(theirs, JpegLimits.DEFAULT));
        assertThat(PeerBytes.fromTables(ours))
                .as("seed %d, %s, %s, bytes", SEED, one, turn)
                .isEqualTo(PeerBytes.fromTables(peer));
    }

    /** There and back again, where nothing stands in the way: four quarter turns, two of any other turn. */
    private void there(Path source, Turn turn, Case one) throws IOException {
        Coefficients before = Coefficients.read(source, JpegLimits.DEFAULT);
        int times = turn == Turn.ROTATE_90 || turn == Turn.ROTATE_270 ? 4 : 2;
        Path at = source;
        for (int time = 0; time < times; time++) {
            if (!turn.edgeLoss(Jpeg.read(at, JpegLimits.DEFAULT).frame()).isNone()) {
                return;
            }
            at = Files.write(folder.resolve("time-" + time % 2 + ".jpg"), turned(at, Recoding.of(turn)));
        }
        assertThat(Coefficients.read(at, JpegLimits.DEFAULT))
                .as("seed %d, %s, %d times %s", SEED, one, times, turn)
                .isEqualTo(before);
    }

    private static byte[] turned(Path source, Recoding recoding) throws IOException {
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        Recoder.recode(source, recoding, JpegLimits.DEFAULT, target);
        return target.toByteArray();
    }
}
