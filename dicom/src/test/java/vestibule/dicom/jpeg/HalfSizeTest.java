package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Checked against djpeg of libjpeg-turbo, which decodes to half the size too: it takes means of two by two samples. */
@DisplayName("The luminance at half its size")
class HalfSizeTest {
    /** Theirs keeps a part of what is too fine for the size, ours none: up to 4 where there are many sharp edges, mostly less than 2. */
    private static final double MEAN_DIFFERENCE = 5;

    @TestFactory
    @DisplayName("is what djpeg shows of photographs of cameras and telephones at half their size")
    Stream<DynamicTest> camera() throws IOException {
        return Corpus.tests("camera", HalfSizeTest::isLikePeers);
    }

    @TestFactory
    @DisplayName("is what djpeg shows of turned photographs of any sampling at half their size")
    Stream<DynamicTest> orientation() throws IOException {
        return Corpus.tests("jpeg-orientation", HalfSizeTest::isLikePeers);
    }

    private static void isLikePeers(Corpus.Row row) throws IOException, InterruptedException {
        Jpeg jpeg = Jpeg.read(row.path(), JpegLimits.DEFAULT);
        ColorCoding coding = jpeg.color().coding();
        assumeTrue(coding == ColorCoding.GREY || coding == ColorCoding.YCBCR, "djpeg would mix its colours");
        assumeTrue(EntropyCheck.reads(jpeg), "of a kind that is not decoded here");
        byte[] theirs = PeerTools.run("djpeg", List.of("-pnm", "-grayscale", "-scale", "4/8"), row.path());
        assertThat(theirs).as("what djpeg makes of it").isNotNull();
        try (SeekableByteChannel channel = Files.newByteChannel(row.path())) {
            HalfSize ours = HalfSize.read(channel, jpeg);
            byte[] samples = ours.samples();
            String header = "P5\n%d %d\n255\n".formatted(ours.width(), ours.height());
            int start = header.length();
            assertThat(new String(theirs, 0, start, StandardCharsets.US_ASCII)).isEqualTo(header);
            assertThat(theirs).hasSize(start + samples.length);
            long difference = 0;
            for (int i = 0; i < samples.length; i++) {
                difference += Math.abs((samples[i] & 0xFF) - (theirs[start + i] & 0xFF));
            }
            assertThat((double) difference / samples.length).isLessThan(MEAN_DIFFERENCE);
        }
    }
}
