package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;

@DisplayName("A picture whose coded data ends before the picture does")
class CutPictureTest {

    private static final int SIDE = 128;

    @TempDir
    Path folder;

    private static byte[] picture() throws IOException {
        Random random = new Random(20_260_303);
        BufferedImage image = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        for (int i = 0; i < SIDE * SIDE; i++) {
            image.setRGB(i % SIDE, i / SIDE, random.nextInt(1 << 24));
        }
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        assertThat(ImageIO.write(image, "jpeg", stream)).isTrue();
        return stream.toByteArray();
    }

    /** The second half of the coded data taken out, and the end of the picture set behind the first. */
    private static byte[] halved(byte[] stream) {
        int scan = stream.length - 1;
        while (stream[scan - 1] != (byte) 0xFF || stream[scan] != (byte) 0xDA) {
            scan--;
        }
        int half = (scan + stream.length) / 2;
        while (stream[half - 1] == (byte) 0xFF) {
            half--;
        }
        byte[] cut = Arrays.copyOf(stream, half + 2);
        cut[half] = (byte) 0xFF;
        cut[half + 1] = (byte) 0xD9;
        return cut;
    }

    private Path object(byte[] stream) throws IOException {
        Path file = folder.resolve("object.dcm");
        Example.of(dataSet(stream)).write(file);
        return file;
    }

    private static DataSet dataSet(byte[] stream) {
        return Photographs.withPixels(Photographs.good(), stream).toBuilder()
                .put(Attributes.ROWS, SIDE)
                .put(Attributes.COLUMNS, SIDE)
                .remove(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO)
                .build();
    }

    private static List<String> errors(ObjectReport report) {
        return report.errors().stream()
                .map(finding -> finding.rule().id().toString())
                .toList();
    }

    @Test
    @DisplayName("is an error where every code is decoded, in a file and before it is written")
    void codes() throws IOException {
        Validator validator = Validator.standard().reading(StreamDepth.CODES);
        assertThat(errors(validator.validate(object(picture())))).isEmpty();
        assertThat(errors(validator.validate(object(halved(picture()))))).containsExactly("JPG-010");
        assertThat(errors(validator.validate(dataSet(halved(picture())), Photographs.SYNTAX)))
                .containsExactly("JPG-010");
    }

    @ParameterizedTest
    @EnumSource(
            value = StreamDepth.class,
            names = {"HEADERS", "MARKERS"})
    @DisplayName("passes where it is not decoded, and what the report says of that is true")
    void notDecoded(StreamDepth depth) throws IOException {
        byte[] cut = halved(picture());
        Path jpeg = Files.write(folder.resolve("cut.jpg"), cut);
        assertThatThrownBy(() -> EntropyCheck.surplusBytes(jpeg, JpegLimits.DEFAULT))
                .isInstanceOf(JpegFormatException.class);
        assertThat(errors(Validator.standard().reading(depth).validate(object(cut))))
                .isEmpty();
        assertThat(depth.limit()).contains("a picture that is cut short or damaged in it passes");
        assertThat(StreamDepth.CODES.limit()).isEmpty();
    }
}
