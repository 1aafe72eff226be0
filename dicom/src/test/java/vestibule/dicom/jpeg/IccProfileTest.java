package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("An ICC profile in APP2 segments (ICC.1 Annex B.4)")
class IccProfileTest {
    /** 132 bytes with the size and the signature that a profile header has (ICC.1 7.2). */
    private static int[] profile() {
        int[] bytes = new int[132];
        bytes[3] = 132;
        bytes[36] = 'a';
        bytes[37] = 'c';
        bytes[38] = 's';
        bytes[39] = 'p';
        bytes[131] = 77;
        return bytes;
    }

    private static StreamBuilder chunk(StreamBuilder stream, int sequence, int count, int from, int to) {
        int[] part = Arrays.copyOfRange(profile(), from, to);
        int[] payload = new int[part.length + 2];
        payload[0] = sequence;
        payload[1] = count;
        System.arraycopy(part, 0, payload, 2, part.length);
        return stream.application(2, "ICC_PROFILE\0", payload);
    }

    private static Jpeg read(StreamBuilder head) throws JpegFormatException {
        return Jpeg.read(finish(head), JpegLimits.DEFAULT);
    }

    private static byte[] finish(StreamBuilder head) {
        return head.quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .data(0x3F)
                .end();
    }

    private static void assertWhole(Jpeg jpeg) {
        assertThat(jpeg.profileCondition()).isEqualTo(ProfileCondition.COMPLETE);
        byte[] bytes = jpeg.iccProfile().orElseThrow();
        assertThat(bytes).hasSize(132).endsWith(77);
    }

    @Test
    @DisplayName("in one chunk or in two is put together and travels with the picture")
    void whole() throws Exception {
        assertWhole(read(chunk(StreamBuilder.start(), 1, 1, 0, 132)));
        Jpeg two = read(chunk(chunk(StreamBuilder.start(), 1, 2, 0, 50), 2, 2, 50, 132));
        assertWhole(two);
        assertThat(two.essential().length()).isEqualTo(two.length());
        assertThat(two.essentialWithoutProfile().length()).isEqualTo(two.length() - 132 - 2 * 18);
    }

    @Test
    @DisplayName("whose chunks are not in their order is put together all the same, and noted")
    void outOfOrder() throws Exception {
        Jpeg jpeg = read(chunk(chunk(StreamBuilder.start(), 2, 2, 50, 132), 1, 2, 0, 50));

        assertWhole(jpeg);
        assertThat(jpeg.notes()).hasSize(1);
    }

    @Test
    @DisplayName("with a missing or wrongly numbered chunk is noticed and does not travel")
    void broken() throws Exception {
        Jpeg missing = read(chunk(StreamBuilder.start(), 1, 2, 0, 132));
        assertThat(missing.profileCondition()).isEqualTo(ProfileCondition.MISSING_CHUNKS);
        assertThat(missing.iccProfile()).isEmpty();
        assertThat(missing.essential()).isEqualTo(missing.essentialWithoutProfile());
        for (int[] numbers : new int[][] {{0, 1}, {2, 1}}) {
            Jpeg wrong = read(chunk(StreamBuilder.start(), numbers[0], numbers[1], 0, 132));
            assertThat(wrong.profileCondition()).isEqualTo(ProfileCondition.MISNUMBERED);
        }
        Jpeg twice = read(chunk(chunk(StreamBuilder.start(), 1, 2, 0, 132), 1, 2, 0, 132));
        assertThat(twice.profileCondition()).isEqualTo(ProfileCondition.MISNUMBERED);
        assertThat(twice.notes()).hasSize(1);
    }

    @Test
    @DisplayName("that is no profile at all is noticed")
    void noProfile() throws Exception {
        Jpeg jpeg = read(chunk(StreamBuilder.start(), 1, 1, 0, 20));

        assertThat(jpeg.profileCondition()).isEqualTo(ProfileCondition.NOT_A_PROFILE);
    }

    @Test
    @DisplayName("larger than the limit is not put together")
    void tooLarge() throws Exception {
        JpegLimits small = new JpegLimits(1000, 100, 10, 4, 1000, 100, 1000);

        Jpeg jpeg = Jpeg.read(finish(chunk(StreamBuilder.start(), 1, 1, 0, 132)), small);

        assertThat(jpeg.profileCondition()).isEqualTo(ProfileCondition.TOO_LARGE);
    }
}
