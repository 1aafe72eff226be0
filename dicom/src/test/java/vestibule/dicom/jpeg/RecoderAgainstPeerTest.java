package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Pictures coded again, against libjpeg-turbo's jpegtran and djpeg")
class RecoderAgainstPeerTest {
    /** Samples of larger pictures are compared once, untouched; equal coefficients say the rest. */
    private static final int SMALL = 20_000;

    /** Above this length only one turn is made, a mirror image of one picture and a quarter turn of the next. */
    private static final long LARGE = 45_000;

    @TempDir
    private Path folder;

    @TestFactory
    @DisplayName("of cameras: all eight turns are the same, coefficient for coefficient")
    Stream<DynamicTest> camera() throws IOException {
        return Corpus.tests("camera", this::agreesInAllTurns);
    }

    @TestFactory
    @DisplayName("of unusual structure: all eight turns are the same, coefficient for coefficient")
    Stream<DynamicTest> odd() throws IOException {
        return Corpus.tests("jpeg-odd", this::agreesInAllTurns);
    }

    @TestFactory
    @DisplayName("with an Exif orientation: all eight turns are the same, coefficient for coefficient")
    Stream<DynamicTest> orientation() throws IOException {
        return Corpus.tests("jpeg-orientation", this::agreesInAllTurns);
    }

    private void agreesInAllTurns(Corpus.Row row) throws Exception {
        Jpeg jpeg = Jpeg.read(row.path(), JpegLimits.DEFAULT);
        if (refusedByName(row, jpeg)) {
            return;
        }
        Path upright = write("none.jpg", ours(row.path(), Recoding.of(Turn.NONE)));
        Path asBaseline = jpeg.frame().type().isProgressive() ? peerBaseline(row.path()) : row.path();
        assertThat(PeerTools.samples(upright)).as("samples").isEqualTo(PeerTools.samples(asBaseline));
        assertThat(Coefficients.read(upright, JpegLimits.DEFAULT))
                .as("coefficients")
                .isEqualTo(Coefficients.read(row.path(), JpegLimits.DEFAULT));
        boolean large = jpeg.length() > LARGE;
        for (Turn turn : large ? List.of(turnOfLarge(jpeg)) : List.of(Turn.values())) {
            boolean perfect = turn.edgeLoss(jpeg.frame()).isNone();
            List<String> words = new ArrayList<>(PeerTools.words(turn));
            words.add(perfect ? "-perfect" : "-trim");
            byte[] peer = PeerTools.run("jpegtran", words, row.path());
            List<String> shortest = new ArrayList<>(words);
            shortest.add("-optimize");
            if (peer != null && !isEmptyAfterTrim(jpeg.frame(), turn) && trimsAlike(jpeg.frame(), turn)) {
                agrees(row.path(), turn, peer);
                byte[] best = ours(
                        row.path(), Recoding.of(turn).with(Recoding.Edge.TRIM).with(Recoding.Codes.OPTIMAL));
                byte[] theirBest = large ? best : PeerTools.run("jpegtran", shortest, row.path());
                assertThat(Arrays.equals(PeerBytes.fromTables(best), PeerBytes.fromTables(theirBest)))
                        .as(turn + " bytes with the best tables")
                        .isTrue();
            }
        }
    }

    private static Turn turnOfLarge(Jpeg jpeg) {
        return jpeg.length() % 2 == 0 ? Turn.FLIP_HORIZONTAL : Turn.ROTATE_90;
    }

    /** The peer smooths a progression that was never finished, which is no matter of coefficients. */
    private Path peerBaseline(Path source) throws Exception {
        return write("peer.jpg", PeerTools.run("jpegtran", List.of(), source));
    }

    private void agrees(Path source, Turn turn, byte[] peer) throws Exception {
        Path theirs = write("theirs.jpg", peer);
        Path kept = write("kept.jpg", ours(source, Recoding.of(turn).with(Recoding.Edge.TRIM)));
        Coefficients expected = Coefficients.read(theirs, JpegLimits.DEFAULT);
        assertThat(Coefficients.read(kept, JpegLimits.DEFAULT))
                .as(turn + " coefficients")
                .isEqualTo(expected);
        if (peer.length < SMALL) {
            assertThat(PeerTools.samples(kept)).as(turn + " samples").isEqualTo(PeerTools.samples(theirs));
        }
        byte[] standard =
                ours(source, Recoding.of(turn).with(Recoding.Edge.TRIM).with(Recoding.Codes.STANDARD));
        assertThat(PeerBytes.fromTables(standard))
                .as(turn + " bytes with standard tables")
                .isEqualTo(PeerBytes.fromTables(peer));
    }

    /** Lossless, arithmetic and 12-bit pictures, of which the refusal must say what they are. */
    private static boolean refusedByName(Corpus.Row row, Jpeg jpeg) {
        boolean known = List.of(FrameType.BASELINE, FrameType.EXTENDED, FrameType.PROGRESSIVE)
                .contains(jpeg.frame().type());
        if (known && jpeg.frame().precision() == 8 && !hasWideElements(row)) {
            return false;
        }
        try {
            ours(row.path(), Recoding.of(Turn.NONE));
            throw new AssertionError("not refused");
        } catch (IOException refused) {
            String expected =
                    hasWideElements(row) ? "above 255" : jpeg.frame().type().words();
            assertThat(refused).isInstanceOf(JpegFormatException.class).hasMessageContaining(expected);
            return true;
        }
    }

    private static boolean hasWideElements(Corpus.Row row) {
        return row.column("special").contains("16-bit quantisation table");
    }

    private static boolean isEmptyAfterTrim(Frame frame, Turn turn) {
        EdgeLoss loss = turn.edgeLoss(frame);
        return loss.columns() == frame.samplesPerLine() || loss.rows() == frame.lines();
    }

    /** The peer trims to whole units of the largest factors; we trim less where the factors allow it. */
    private static boolean trimsAlike(Frame frame, Turn turn) {
        if (turn.edgeLoss(frame).isNone()) {
            return true;
        }
        boolean oneComponent = frame.components().size() == 1;
        int unitWidth = oneComponent ? 8 : 8 * frame.maxHorizontal();
        int unitHeight = oneComponent ? 8 : 8 * frame.maxVertical();
        return EdgeLoss.columnsOfWholeBlocks(frame) == unitWidth
                && EdgeLoss.rowsOfWholeBlocks(frame) == unitHeight
                && frame.samplesPerLine() >= unitWidth
                && frame.lines() >= unitHeight;
    }

    private static byte[] ours(Path source, Recoding recoding) throws IOException {
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        Recoded recoded = Recoder.recode(source, recoding, JpegLimits.DEFAULT, target);
        assertThat(recoded.length()).isEqualTo(target.size());
        assertThat(Jpeg.read(target.toByteArray(), JpegLimits.DEFAULT).frame()).isEqualTo(recoded.frame());
        return target.toByteArray();
    }

    private Path write(String name, byte[] bytes) throws IOException {
        return Files.write(folder.resolve(name), bytes);
    }
}
