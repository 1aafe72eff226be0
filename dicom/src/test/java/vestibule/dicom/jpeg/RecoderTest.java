package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Duration;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

@DisplayName("A picture coded again")
class RecoderTest {
    private static final long SEED = Long.getLong("vestibule.seed", 20261125L);
    private static final int PICTURES = 120;

    private static byte[] recode(byte[] stream, Recoding recoding) throws IOException {
        return recodeInto(stream, recoding, new ByteArrayOutputStream());
    }

    private static byte[] recodeInto(byte[] stream, Recoding recoding, ByteArrayOutputStream target)
            throws IOException {
        try (ByteArrayChannel channel = new ByteArrayChannel(stream)) {
            Recoder.recode(channel, Jpeg.read(channel, JpegLimits.DEFAULT), recoding, target);
        }
        return target.toByteArray();
    }

    private static Coefficients coefficients(byte[] stream) throws IOException {
        try (ByteArrayChannel channel = new ByteArrayChannel(stream)) {
            return Coefficients.read(channel, Jpeg.read(channel, JpegLimits.DEFAULT));
        }
    }

    @Test
    @DisplayName("as it is has the same coefficients, with kept, standard and best tables, with restarts or without")
    void sameCoefficients() throws Exception {
        RandomPictures pictures = new RandomPictures(SEED);
        for (int number = 0; number < PICTURES; number++) {
            RandomPictures.Picture made = pictures.next();
            byte[] picture = made.stream;
            Coefficients expected = coefficients(picture);
            assertThat(made.isMadeOf(expected))
                    .as("seed %d, picture %d", SEED, number)
                    .isTrue();
            for (Recoding.Codes codes : Recoding.Codes.values()) {
                byte[] again = recode(picture, Recoding.of(Turn.NONE).with(codes));
                assertThat(coefficients(again))
                        .as("seed %d, picture %d, %s", SEED, number, codes)
                        .isEqualTo(expected);
                assertThat(Jpeg.read(again, JpegLimits.DEFAULT).frame().type()).isEqualTo(FrameType.BASELINE);
            }
        }
    }

    @Test
    @DisplayName("turned and turned back has the same coefficients, where nothing was left off")
    void thereAndBack() throws Exception {
        RandomPictures pictures = new RandomPictures(SEED + 1);
        int compared = 0;
        for (int number = 0; number < PICTURES; number++) {
            byte[] picture = pictures.next().stream;
            for (Turn turn : Turn.values()) {
                if (turn.edgeLoss(Jpeg.read(picture, JpegLimits.DEFAULT).frame())
                        .isNone()) {
                    byte[] there = recode(picture, Recoding.of(turn));
                    byte[] back = recode(there, Recoding.of(turn.inverse()));
                    assertThat(coefficients(back))
                            .as("seed %d, picture %d, %s", SEED, number, turn)
                            .isEqualTo(coefficients(picture));
                    compared++;
                }
            }
        }
        assertThat(compared).isGreaterThan(2 * PICTURES);
    }

    @Test
    @DisplayName("by two turns one after the other is the picture turned once by both")
    void composition() throws Exception {
        RandomPictures pictures = new RandomPictures(SEED + 2);
        for (int number = 0; number < PICTURES / 6; number++) {
            byte[] trimmed = pictures.next(new int[] {0x22, 0x11, 0x11}, 16 + 16 * (number % 3), 32).stream;
            for (Turn first : Turn.values()) {
                for (Turn second : Turn.values()) {
                    byte[] steps = recode(recode(trimmed, Recoding.of(first)), Recoding.of(second));
                    byte[] once = recode(trimmed, Recoding.of(first.then(second)));
                    assertThat(coefficients(once))
                            .as("seed %d, picture %d, %s then %s", SEED, number, first, second)
                            .isEqualTo(coefficients(steps));
                }
            }
        }
    }

    private static Recoding trimming(Turn turn) {
        return Recoding.of(turn).with(Recoding.Edge.TRIM);
    }

    @Test
    @DisplayName("that would lose its edge is refused with the amount, and nothing is written")
    void keepsEdges() throws Exception {
        byte[] picture = picture(100, 50);
        ByteArrayOutputStream target = new ByteArrayOutputStream();

        assertThatThrownBy(() -> recodeInto(picture, Recoding.of(Turn.FLIP_HORIZONTAL), target))
                .isInstanceOf(EdgeLossException.class)
                .hasMessageContaining("flip-horizontal")
                .hasMessageContaining("4 columns at the right edge");
        assertThat(target.size()).isZero();
    }

    @Test
    @DisplayName("with trimming loses the fewest columns and says so")
    void trims() throws Exception {
        byte[] picture = picture(100, 50);
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        try (ByteArrayChannel channel = new ByteArrayChannel(picture)) {
            Recoded recoded = Recoder.recode(
                    channel, Jpeg.read(channel, JpegLimits.DEFAULT), trimming(Turn.FLIP_HORIZONTAL), target);

            assertThat(recoded.loss()).isEqualTo(new EdgeLoss(4, 0));
            assertThat(recoded.frame().samplesPerLine()).isEqualTo(96);
            assertThat(recoded.frame().lines()).isEqualTo(50);
            assertThat(recoded.length()).isEqualTo(target.size());
        }
    }

    @Test
    @DisplayName("keeps its restart interval when asked to")
    void restarts() throws Exception {
        byte[] withRestarts = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 24, 1, 0x11, 0)
                .tinyHuffman(0)
                .segment(0xDD, 0, 1)
                .scan(1)
                .data(0x3F, 0xFF, 0xD0, 0x3F, 0xFF, 0xD1, 0x3F)
                .end();

        Recoding kept = Recoding.of(Turn.ROTATE_90).with(Recoding.Restarts.KEEP);
        Jpeg turned = Jpeg.read(recode(withRestarts, kept), JpegLimits.DEFAULT);
        Jpeg dropped = Jpeg.read(recode(withRestarts, Recoding.of(Turn.ROTATE_90)), JpegLimits.DEFAULT);

        assertThat(turned.restartInterval()).isEqualTo(1);
        assertThat(turned.scans().get(0).restarts()).isEqualTo(2);
        assertThat(dropped.restartInterval()).isZero();
    }

    @Test
    @DisplayName("leaves metadata behind, but for what colour needs")
    void metadata() throws Exception {
        byte[] stream = StreamBuilder.start()
                .adobe(0)
                .application(1, "Exif\0\0", 'M', 'M')
                .segment(0xFE, 'h', 'i')
                .quantization(0, 1)
                .colorFrame(1, 2, 3)
                .tinyHuffman(0)
                .scan(1, 2, 3)
                .data(0x03)
                .raw(0xFF, 0xD9, 1, 2, 3)
                .bytes();
        Jpeg again = Jpeg.read(recode(stream, Recoding.of(Turn.NONE)), JpegLimits.DEFAULT);

        assertThat(again.segments())
                .filteredOn(segment -> segment.kind().isMetadata())
                .extracting(Segment::kind)
                .containsExactly(SegmentKind.ADOBE);
        assertThat(again.trailingBytes()).isZero();
    }

    @Test
    @DisplayName("whose entropy-coded data ends early, or holds no code, is refused and says where")
    void damagedData() {
        StreamBuilder head = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 24, 1, 0x11, 0)
                .tinyHuffman(0);
        byte[] start = head.scan(1).bytes();

        assertThatThrownBy(() -> recode(append(start, 0x1F, 0xFF, 0xD9), Recoding.of(Turn.NONE)))
                .isInstanceOf(JpegFormatException.class)
                .hasMessageContaining("no code")
                .hasMessageContaining("row 1 and column 2 of component 1");
    }

    @Test
    @DisplayName("whose scan header names a band that a sequential scan cannot have still needs all its tables")
    void bandInSequentialScan() {
        byte[] withoutAc = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .segment(0xC4, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
                .scanWith(0, 0, 0, 1)
                .data(0x3F)
                .end();

        assertThatThrownBy(() -> recode(withoutAc, Recoding.of(Turn.NONE)))
                .isInstanceOf(JpegFormatException.class)
                .hasMessageContaining("has no AC Huffman table 0");
    }

    private static byte[] append(byte[] start, int... more) {
        StreamBuilder all = new StreamBuilder();
        for (byte value : start) {
            all.raw(value & 0xFF);
        }
        return all.raw(more).bytes();
    }

    private static byte[] picture(int width, int height) throws IOException {
        return new RandomPictures(SEED).next(new int[] {0x11}, width, height).stream;
    }

    @TestFactory
    @DisplayName("from a broken file: done or refused in one sentence, within 2 seconds")
    Stream<DynamicTest> hostile() throws IOException {
        return Corpus.tests(
                "jpeg-hostile",
                row -> assertTimeout(Duration.ofSeconds(2), () -> {
                    for (Turn turn : new Turn[] {Turn.FLIP_HORIZONTAL, Turn.ROTATE_90}) {
                        ByteArrayOutputStream target = new ByteArrayOutputStream();
                        try {
                            Recoder.recode(row.path(), trimming(turn), JpegLimits.DEFAULT, target);
                            assertThat(EntropyCheck.surplusBytes(row.path(), JpegLimits.DEFAULT))
                                    .isNotNegative();
                        } catch (JpegFormatException refused) {
                            assertThat(refused.getMessage())
                                    .startsWith("At byte ")
                                    .endsWith(".");
                            assertThat(target.size()).isZero();
                        } catch (EdgeLossException refused) {
                            assertThat(refused.getMessage()).contains("which is all of it");
                        }
                    }
                }));
    }
}
