package vestibule.bridge.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("The picture of an object")
class PictureMakerTest {

    private static final String STRANGE = "what nobody asked for";

    @TempDir
    Path folder;

    /** The last bytes of a JPEG are the marker at its end (T.81 B.2.1); before it the picture's data is closed already. */
    private Photo withSurplus(String words) throws Exception {
        byte[] jpeg = Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL);
        ByteArrayOutputStream longer = new ByteArrayOutputStream();
        longer.write(jpeg, 0, jpeg.length - 2);
        longer.writeBytes(words.getBytes(StandardCharsets.US_ASCII));
        longer.write(jpeg, jpeg.length - 2, 2);
        return Photo.read(Files.write(folder.resolve("photo.jpg"), longer.toByteArray()));
    }

    private static String text(Picture picture) throws Exception {
        return new String(picture.stream().bytes(1 << 20), StandardCharsets.ISO_8859_1);
    }

    @ParameterizedTest
    @DisplayName("as recorded has nothing of what stands after its last block, whether it was mirrored before or not")
    @ValueSource(booleans = {true, false})
    void surplus(boolean mirroredBefore) throws Exception {
        Photo photo = withSurplus(STRANGE);
        try (Scratch scratch = Scratch.in(folder)) {
            PictureMaker maker = new PictureMaker(scratch);
            if (mirroredBefore) {
                Picture mirrored = maker.make(
                        photo, new PictureMaker.Wish(Turn.NONE, Turn.FLIP_HORIZONTAL, Recoding.Edge.TRIM, Inks.REFUSE));
                assertThat(text(mirrored)).doesNotContain(STRANGE);
            }
            Picture raw = maker.make(photo, PictureMaker.Wish.asRecorded(Inks.REFUSE));
            assertThat(text(raw)).doesNotContain(STRANGE);
            assertThat(raw.changes().coding()).isEqualTo(Changes.Coding.RECODED);
        }
    }

    @ParameterizedTest
    @DisplayName("as recorded is the camera's own bytes where nothing stands there")
    @ValueSource(booleans = {true, false})
    void untouched(boolean mirroredBefore) throws Exception {
        Photo photo = withSurplus("");
        try (Scratch scratch = Scratch.in(folder)) {
            PictureMaker maker = new PictureMaker(scratch);
            if (mirroredBefore) {
                maker.make(
                        photo, new PictureMaker.Wish(Turn.NONE, Turn.FLIP_HORIZONTAL, Recoding.Edge.TRIM, Inks.REFUSE));
            }
            Picture raw = maker.make(photo, PictureMaker.Wish.asRecorded(Inks.REFUSE));
            assertThat(raw.changes().coding()).isEqualTo(Changes.Coding.KEPT);
        }
    }
}
