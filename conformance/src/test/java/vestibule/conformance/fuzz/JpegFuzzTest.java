package vestibule.conformance.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import vestibule.dicom.jpeg.BlockLuminance;
import vestibule.dicom.jpeg.Coefficients;
import vestibule.dicom.jpeg.EdgeLossException;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.HalfSize;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

@DisplayName("Fuzz: JPEG streams")
class JpegFuzzTest {

    /** Small pictures, so that many are tried. */
    private static final JpegLimits LIMITS =
            JpegLimits.DEFAULT.withMaxPixels(1 << 16).withMaxCoefficientBytes(1 << 20);

    private static final Turn[] TURNS = Turn.values();
    private static final List<Recoding.Codes> CODES = List.of(Recoding.Codes.values());

    @FuzzTest
    @DisplayName("a stream is walked, and everything about it can be asked, or it is refused")
    void walk(byte[] stream) {
        try {
            Jpeg jpeg = Jpeg.read(stream, JpegLimits.DEFAULT);
            assertThat(jpeg.end() + jpeg.trailingBytes()).isEqualTo(jpeg.length());
            assertThat(jpeg.essential().length()).isLessThanOrEqualTo(stream.length);
            assertThat(jpeg.essentialWithoutProfile().length())
                    .isLessThanOrEqualTo(jpeg.essential().length());
            assertThat(jpeg.fitness().fits())
                    .isEqualTo(jpeg.fitness().hindrances().isEmpty());
            assertThat(jpeg.frame().sampling()).isNotEmpty();
            jpeg.exifBlock();
            jpeg.iccProfile();
        } catch (JpegFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
        }
    }

    @FuzzTest
    @DisplayName(
            "every code of a picture is decoded, and its surplus bytes are within the file, or it is refused; and so it is looked at")
    void decode(byte[] stream) throws IOException {
        Jpeg jpeg;
        try {
            jpeg = Jpeg.read(stream, LIMITS);
        } catch (JpegFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
            return;
        }
        Optional<String> refusedByCheck = refusal(() ->
                assertThat(EntropyCheck.surplusBytes(new Bytes(stream), jpeg)).isBetween(0L, (long) stream.length));
        assertThat(refusal(() -> HalfSize.read(new Bytes(stream), jpeg))).isEqualTo(refusedByCheck);
        assertThat(refusal(() -> BlockLuminance.read(new Bytes(stream), jpeg))).isEqualTo(refusedByCheck);
    }

    private interface Reading {
        void run() throws IOException;
    }

    private static Optional<String> refusal(Reading reading) throws IOException {
        try {
            reading.run();
            return Optional.empty();
        } catch (JpegFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
            return Optional.of(String.valueOf(refused.getMessage()));
        }
    }

    @FuzzTest
    @DisplayName("a picture is decoded and turned and has the same coefficients when turned back, or it is refused")
    void picture(byte[] bytes) throws IOException {
        if (bytes.length == 0) {
            return;
        }
        int choice = bytes[0] & 0xFF;
        byte[] stream = java.util.Arrays.copyOfRange(bytes, 1, bytes.length);
        try {
            turn(stream, TURNS[choice & 7], CODES.get((choice >> 3) % CODES.size()));
        } catch (EdgeLossException nothingLeft) {
            assertThat(nothingLeft.loss().isNone()).isFalse();
        } catch (JpegFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
        }
    }

    private static void turn(byte[] stream, Turn turn, Recoding.Codes codes) throws IOException {
        Jpeg jpeg = Jpeg.read(stream, LIMITS);
        Coefficients coefficients = Coefficients.read(new Bytes(stream), jpeg);
        assertThat(EntropyCheck.surplusBytes(new Bytes(stream), jpeg)).isEqualTo(coefficients.surplusBytes());
        BlockLuminance luminance = BlockLuminance.read(new Bytes(stream), jpeg);
        assertThat(luminance.mean(luminance.columns() - 1, luminance.rows() - 1))
                .isBetween(0, 255);
        byte[] turned = recode(stream, jpeg, Recoding.of(turn).with(codes).with(Recoding.Edge.TRIM));
        if (turn.edgeLoss(jpeg.frame()).isNone()) {
            Jpeg there = Jpeg.read(turned, LIMITS);
            byte[] back = recode(turned, there, Recoding.of(turn.inverse()).with(Recoding.Edge.TRIM));
            assertThat(Coefficients.read(new Bytes(back), Jpeg.read(back, LIMITS)))
                    .isEqualTo(coefficients);
        }
    }

    private static byte[] recode(byte[] stream, Jpeg jpeg, Recoding recoding) throws IOException {
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        Recoder.recode(new Bytes(stream), jpeg, recoding, target);
        return target.toByteArray();
    }

    /** Bytes in memory as a channel. */
    private static final class Bytes implements SeekableByteChannel {
        private final ByteBuffer bytes;

        Bytes(byte[] bytes) {
            this.bytes = ByteBuffer.wrap(bytes).asReadOnlyBuffer();
        }

        @Override
        public int read(ByteBuffer target) {
            if (!bytes.hasRemaining()) {
                return -1;
            }
            int count = Math.min(target.remaining(), bytes.remaining());
            target.put(bytes.slice(bytes.position(), count));
            bytes.position(bytes.position() + count);
            return count;
        }

        @Override
        public long position() {
            return bytes.position();
        }

        @Override
        public SeekableByteChannel position(long position) {
            bytes.position((int) Math.min(position, bytes.limit()));
            return this;
        }

        @Override
        public long size() {
            return bytes.limit();
        }

        @Override
        public int write(ByteBuffer source) {
            throw new UnsupportedOperationException("read only");
        }

        @Override
        public SeekableByteChannel truncate(long size) {
            throw new UnsupportedOperationException("read only");
        }

        @Override
        public boolean isOpen() {
            return true;
        }

        @Override
        public void close() {
            // Nothing is held
        }
    }
}
