package vestibule.bridge.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_ColorSpace;
import java.awt.color.ICC_Profile;
import java.awt.color.ICC_ProfileRGB;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Colours of a photograph (PS3.3 C.11.15)")
class ColorsTest {

    private static final Optional<String> NOTHING_NOTED = Optional.empty();

    private static Jpeg jpeg(String id, byte[]... segments) throws IOException {
        byte[] photo = Samples.jpeg(Samples.photo(id), PhotoSize.THUMBNAIL);
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        stream.write(photo, 0, 2);
        for (byte[] segment : segments) {
            stream.writeBytes(segment);
        }
        stream.write(photo, 2, photo.length - 2);
        return Jpeg.read(stream.toByteArray(), JpegLimits.DEFAULT);
    }

    /** One APP2 segment with a chunk of a profile (ICC.1:2010 Annex B.4). */
    private static byte[] chunk(byte[] profile, int number, int count) {
        return ByteBuffer.allocate(18 + profile.length)
                .putShort((short) 0xFFE2)
                .putShort((short) (16 + profile.length))
                .put("ICC_PROFILE\0".getBytes(StandardCharsets.US_ASCII))
                .put((byte) number)
                .put((byte) count)
                .put(profile)
                .array();
    }

    private static byte[] display(int space) {
        return ICC_Profile.getInstance(space).getData();
    }

    private static ICC_Profile read(Colors colors) {
        return ICC_Profile.getInstance(colors.profile().orElseThrow());
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("noted by the camera become a profile of the input class with the published primaries")
    @CsvSource({
        // X, Y, Z of the red primary under D50: sRGB as in the profiles of the ICC, Adobe RGB (1998) 4.3.5.3 (from
        // memory)
        "SRGB, 0.4361, 0.2225, 0.0139",
        "ADOBERGB, 0.6097, 0.3111, 0.0195",
    })
    void notedSpace(String space, double x, double y, double z) throws IOException {
        Colors colors = Colors.of(jpeg("zoe-teeth-front-occlusion"), Optional.of(space));
        assertThat(colors.notes()).isEmpty();
        assertThat(colors.colorSpace()).contains(space);
        ICC_Profile profile = read(colors);
        assertThat(profile.getProfileClass()).isEqualTo(ICC_Profile.CLASS_INPUT);
        assertThat(profile.getColorSpaceType()).isEqualTo(ColorSpace.TYPE_RGB);
        assertThat(profile.getPCSType()).isEqualTo(ColorSpace.TYPE_XYZ);
        float[][] matrix = ((ICC_ProfileRGB) profile).getMatrix();
        assertThat(matrix[0][0]).isCloseTo((float) x, within(0.0006f));
        assertThat(matrix[1][0]).isCloseTo((float) y, within(0.0006f));
        assertThat(matrix[2][0]).isCloseTo((float) z, within(0.0006f));
    }

    @Test
    @DisplayName("noted as sRGB are what another implementation takes for sRGB")
    void srgbIsSrgb() throws IOException {
        ICC_ColorSpace ours =
                new ICC_ColorSpace(read(Colors.of(jpeg("zoe-teeth-front-occlusion"), Optional.of("SRGB"))));
        for (float[] colour : new float[][] {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.2f, 0.5f, 0.9f}, {1, 1, 1}}) {
            float[] theirs = ours.toRGB(colour);
            for (int component = 0; component < 3; component++) {
                assertThat(theirs[component]).as(Arrays.toString(colour)).isCloseTo(colour[component], within(0.004f));
            }
        }
    }

    @Test
    @DisplayName("that nobody noted stay unsaid: nothing is assumed")
    void nothingAssumed() throws IOException {
        assertThat(Colors.of(jpeg("zoe-teeth-front-occlusion"), NOTHING_NOTED)).isEqualTo(Colors.UNSAID);
    }

    @Test
    @DisplayName("of a grey picture get no profile, which is one of red, green and blue (PS3.3 C.11.15.1.1)")
    void greyHasNone() throws IOException {
        assertThat(Colors.of(jpeg("nina-teeth-buccal-left-direct"), Optional.of("SRGB")))
                .isEqualTo(Colors.UNSAID);
    }

    @Test
    @DisplayName("of a display profile become the input profile of the same colours, without its texts")
    void displayProfileIsReclassed() throws IOException {
        byte[] source = display(ColorSpace.CS_sRGB);
        Colors colors = Colors.of(jpeg("zoe-teeth-front-occlusion", chunk(source, 1, 1)), NOTHING_NOTED);
        assertThat(colors.notes()).isEmpty();
        assertThat(colors.colorSpace()).contains("SRGB");
        ICC_Profile profile = read(colors);
        assertThat(profile.getProfileClass()).isEqualTo(ICC_Profile.CLASS_INPUT);
        float[][] ours = ((ICC_ProfileRGB) profile).getMatrix();
        float[][] theirs = ((ICC_ProfileRGB) ICC_Profile.getInstance(source)).getMatrix();
        assertThat(ours).isDeepEqualTo(theirs);
        String text = new String(colors.profile().orElseThrow(), StandardCharsets.ISO_8859_1);
        assertThat(text).contains("Camera RGB").doesNotContain("IEC", "Copyright");
    }

    @Test
    @DisplayName("of a linear display profile are carried, and are neither sRGB nor Adobe RGB")
    void otherSpace() throws IOException {
        Colors colors = Colors.of(
                jpeg("zoe-teeth-front-occlusion", chunk(display(ColorSpace.CS_LINEAR_RGB), 1, 1)), NOTHING_NOTED);
        assertThat(colors.profile()).isPresent();
        assertThat(colors.colorSpace()).isEmpty();
    }

    @Test
    @DisplayName("with a profile of grey are those the camera noted, and the profile is noticed")
    void wrongProfile() throws IOException {
        byte[] grey = display(ColorSpace.CS_GRAY);
        Colors colors = Colors.of(jpeg("zoe-teeth-front-occlusion", chunk(grey, 1, 1)), Optional.of("SRGB"));
        assertThat(colors.notes()).singleElement().asString().contains("other components");
        assertThat(colors.colorSpace()).contains("SRGB");
    }

    @Test
    @DisplayName("with a misnumbered or incomplete profile are those the camera noted, and the profile is noticed")
    void brokenChunks() throws IOException {
        byte[] source = display(ColorSpace.CS_sRGB);
        byte[] head = Arrays.copyOf(source, 200);
        byte[] tail = Arrays.copyOfRange(source, 200, source.length);
        Colors twice = Colors.of(
                jpeg("zoe-teeth-front-occlusion", chunk(head, 1, 2), chunk(tail, 1, 2)), Optional.of("ADOBERGB"));
        assertThat(twice.notes()).singleElement().asString().contains("wrongly numbered");
        assertThat(twice.colorSpace()).contains("ADOBERGB");
        Colors missing = Colors.of(jpeg("zoe-teeth-front-occlusion", chunk(head, 1, 2)), NOTHING_NOTED);
        assertThat(missing.notes()).singleElement().asString().contains("missing");
        assertThat(missing.profile()).isEmpty();
    }

    @Test
    @DisplayName("in two chunks, the second first, are put together")
    void chunksOutOfOrder() throws IOException {
        byte[] source = display(ColorSpace.CS_sRGB);
        byte[] head = Arrays.copyOf(source, 200);
        byte[] tail = Arrays.copyOfRange(source, 200, source.length);
        Colors colors =
                Colors.of(jpeg("zoe-teeth-front-occlusion", chunk(tail, 2, 2), chunk(head, 1, 2)), NOTHING_NOTED);
        assertThat(colors.colorSpace()).contains("SRGB");
    }

    @Test
    @DisplayName("whose primaries do not add up to white are not believed")
    void primariesWithoutWhite() throws IOException {
        byte[] source = display(ColorSpace.CS_sRGB);
        ByteBuffer bytes = ByteBuffer.wrap(source);
        for (int tag = 0; tag < bytes.getInt(128); tag++) {
            int entry = 132 + 12 * tag;
            if (bytes.getInt(entry) == 0x7258595A) {
                bytes.putInt(bytes.getInt(entry + 4) + 8, 0);
            }
        }
        Colors colors = Colors.of(jpeg("zoe-teeth-front-occlusion", chunk(source, 1, 1)), NOTHING_NOTED);
        assertThat(colors.notes()).singleElement().asString().contains("do not add up to white");
        assertThat(colors.profile()).isEmpty();
    }

    @Test
    @DisplayName("of a profile cut or damaged anywhere end in a profile or a note, never in a fault")
    void hostileProfiles() throws IOException {
        byte[] source = display(ColorSpace.CS_sRGB);
        for (int place = 0; place < Math.min(600, source.length); place++) {
            byte[] damaged = source.clone();
            damaged[place] ^= (byte) 0xFF;
            Colors colors = Colors.of(jpeg("zoe-teeth-front-occlusion", chunk(damaged, 1, 1)), NOTHING_NOTED);
            assertThat(colors.profile().isPresent() || !colors.notes().isEmpty())
                    .as("byte %d", place)
                    .isTrue();
        }
    }
}
