package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Fitness for JPEG Baseline (PS3.5 8.2.1, A.4.1)")
class FitnessTest {
    private static Jpeg grey(int frameMarker, int precision) throws JpegFormatException {
        StreamBuilder head = StreamBuilder.start()
                .quantization(0, 1)
                .frame(frameMarker, precision, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0);
        FrameType type = FrameType.ofMarker(frameMarker).orElseThrow();
        int start = type.isLossless() ? 1 : 0;
        int end = type.isLossless() || type.isProgressive() ? 0 : 63;
        return Jpeg.read(
                head.scanWith(start, end, 0, 1).data(0, 0, 0, 0, 0, 0, 0, 0).end(), JpegLimits.DEFAULT);
    }

    private static Jpeg color(StreamBuilder start, int... ids) throws JpegFormatException {
        int[] components = new int[3 * ids.length];
        for (int index = 0; index < ids.length; index++) {
            components[3 * index] = ids[index];
            components[3 * index + 1] = 0x11;
        }
        byte[] stream = start.quantization(0, 1)
                .frame(0xC0, 8, 8, 8, components)
                .tinyHuffman(0)
                .scan(ids)
                .data(0, 0)
                .end();
        return Jpeg.read(stream, JpegLimits.DEFAULT);
    }

    private static void hindered(Jpeg jpeg, Hindrance.Reason... reasons) {
        assertThat(jpeg.fitness().hindrances()).extracting(Hindrance::reason).containsExactly(reasons);
        assertThat(jpeg.fitness().hindrances())
                .allSatisfy(hindrance ->
                        assertThat(hindrance.sentence()).isNotBlank().doesNotEndWith("."));
    }

    @Test
    @DisplayName("is missing in every process but baseline sequential, each named")
    void processes() throws Exception {
        hindered(grey(0xC0, 8));
        hindered(grey(0xC1, 8), Hindrance.Reason.EXTENDED);
        hindered(grey(0xC1, 12), Hindrance.Reason.TWELVE_BIT, Hindrance.Reason.EXTENDED);
        hindered(grey(0xC2, 8), Hindrance.Reason.PROGRESSIVE);
        hindered(grey(0xC3, 16), Hindrance.Reason.LOSSLESS);
        hindered(grey(0xC5, 8), Hindrance.Reason.HIERARCHICAL);
        hindered(grey(0xC9, 8), Hindrance.Reason.ARITHMETIC);
        hindered(grey(0xCA, 8), Hindrance.Reason.ARITHMETIC);
        hindered(grey(0xCB, 16), Hindrance.Reason.ARITHMETIC, Hindrance.Reason.LOSSLESS);
    }

    @Test
    @DisplayName("comes with recoding for progressive and extended pictures of 8 bits, and not for others")
    void recoding() throws Exception {
        assertThat(grey(0xC2, 8).fitness().fitsOnceRecoded()).isTrue();
        assertThat(grey(0xC1, 8).fitness().fitsOnceRecoded()).isTrue();
        assertThat(grey(0xC1, 12).fitness().fitsOnceRecoded()).isFalse();
        assertThat(grey(0xC9, 8).fitness().fitsOnceRecoded()).isFalse();
    }

    @Test
    @DisplayName("goes with three components that JFIF, Adobe, the identifiers or nothing at all make YCbCr")
    void yCbCr() throws Exception {
        hindered(color(StreamBuilder.start().jfif(), 1, 2, 3));
        hindered(color(StreamBuilder.start().adobe(1), 1, 2, 3));
        hindered(color(StreamBuilder.start(), 1, 2, 3));
        hindered(color(StreamBuilder.start(), 0, 1, 2));
        hindered(color(StreamBuilder.start(), 5, 6, 9));
        assertThat(color(StreamBuilder.start(), 5, 6, 9).color().evidence()).isEqualTo(ColorReading.Evidence.CUSTOM);
    }

    @Test
    @DisplayName("is missing where the components are RGB, CMYK, YCCK or without a meaning")
    void otherColors() throws Exception {
        hindered(color(StreamBuilder.start().adobe(0), 1, 2, 3), Hindrance.Reason.RGB_CODED);
        hindered(color(StreamBuilder.start(), 'R', 'G', 'B'), Hindrance.Reason.RGB_CODED);
        hindered(color(StreamBuilder.start(), 1, 2, 3, 4), Hindrance.Reason.CMYK);
        hindered(color(StreamBuilder.start().adobe(0), 1, 2, 3, 4), Hindrance.Reason.CMYK);
        hindered(color(StreamBuilder.start().adobe(2), 1, 2, 3, 4), Hindrance.Reason.YCCK);
        hindered(color(StreamBuilder.start(), 1, 2), Hindrance.Reason.COMPONENT_COUNT);
    }

    @Test
    @DisplayName("is missing where the stream contradicts itself on colour")
    void contradictions() throws Exception {
        Hindrance.Reason contradiction = Hindrance.Reason.COLOR_CONTRADICTION;
        hindered(color(StreamBuilder.start().jfif(), 'R', 'G', 'B'), contradiction);
        hindered(color(StreamBuilder.start().adobe(1), 'R', 'G', 'B'), contradiction);
        hindered(color(StreamBuilder.start().jfif().adobe(0), 1, 2, 3), contradiction);
        hindered(color(StreamBuilder.start().adobe(0).adobe(1), 1, 2, 3), contradiction);
        hindered(color(StreamBuilder.start().adobe(7), 1, 2, 3), contradiction);
    }

    @Test
    @DisplayName("leaves the Adobe segment in the stream only where colour would change without it")
    void adobeTravels() throws Exception {
        Jpeg needless = color(StreamBuilder.start().adobe(1), 1, 2, 3);
        Jpeg needed = color(StreamBuilder.start().adobe(0), 1, 2, 3);
        Jpeg spelled = color(StreamBuilder.start().adobe(0), 'R', 'G', 'B');
        Jpeg inks = color(StreamBuilder.start().adobe(0), 1, 2, 3, 4);

        assertThat(needless.essential().length()).isEqualTo(needless.length() - 16);
        assertThat(needed.essential().length()).isEqualTo(needed.length());
        assertThat(spelled.essential().length()).isEqualTo(spelled.length() - 16);
        assertThat(inks.essential().length()).isEqualTo(inks.length());
    }

    @Test
    @DisplayName("is missing where tables are left to somewhere else, as in the abbreviated format")
    void missingTables() throws Exception {
        StreamBuilder noQuantization =
                StreamBuilder.start().frame(0xC0, 8, 8, 8, 1, 0x11, 0).tinyHuffman(0);
        StreamBuilder noHuffman = StreamBuilder.start().quantization(0, 1).frame(0xC0, 8, 8, 8, 1, 0x11, 0);

        hindered(
                Jpeg.read(noQuantization.scan(1).data(0x3F).end(), JpegLimits.DEFAULT),
                Hindrance.Reason.MISSING_TABLES);
        hindered(Jpeg.read(noHuffman.scan(1).data(0x3F).end(), JpegLimits.DEFAULT), Hindrance.Reason.MISSING_TABLES);
    }

    @Test
    @DisplayName("is missing with a 16-bit quantization table in a baseline frame (T.81 B.2.4.1)")
    void wideQuantization() throws Exception {
        int[] wide = new int[129];
        Arrays.fill(wide, 1);
        wide[0] = 0x10;
        byte[] stream = StreamBuilder.start()
                .segment(0xDB, wide)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .data(0x3F)
                .end();

        hindered(Jpeg.read(stream, JpegLimits.DEFAULT), Hindrance.Reason.SIXTEEN_BIT_QUANTIZATION);
    }

    @Test
    @DisplayName("is missing where a sequential scan header says a band of coefficients")
    void nonconformingScan() throws Exception {
        byte[] stream = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .scanWith(0, 0, 0, 1)
                .data(0x3F)
                .end();

        hindered(Jpeg.read(stream, JpegLimits.DEFAULT), Hindrance.Reason.NONCONFORMING_SCAN);
    }
}
