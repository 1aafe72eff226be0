package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A second Exif block of a stream")
class SecondExifBlockTest {

    private static List<String> rules(byte[]... blocks) throws IOException {
        return Validator.under(Profile.PRACTICE)
                .validate(
                        Photographs.withPixels(Photographs.good(), TinyJpeg.colourWith(ExifSegment.APP1, blocks)),
                        Photographs.SYNTAX)
                .findings()
                .stream()
                .map(finding -> finding.rule().id().toString())
                .filter(id -> id.startsWith("PRV") || id.startsWith("JPG"))
                .toList();
    }

    @Test
    @DisplayName("turns the picture in some viewers, whatever the first one says")
    void orientation() throws IOException {
        assertThat(rules(ExifSegment.orientation(1), ExifSegment.orientation(6)))
                .contains("JPG-021");
        assertThat(rules(ExifSegment.orientation(3), ExifSegment.orientation(6)))
                .containsOnlyOnce("JPG-021");
        assertThat(rules(ExifSegment.orientation(1), ExifSegment.orientation(1)))
                .containsExactly("PRV-008");
    }

    @Test
    @DisplayName("tells of places and persons like the first")
    void privacy() throws IOException {
        assertThat(rules(ExifSegment.orientation(1), ExifSegment.position())).contains("PRV-001");
        assertThat(rules(ExifSegment.orientation(1), ExifSegment.tag(0xA431))).contains("PRV-002");
        assertThat(rules(ExifSegment.orientation(1), ExifSegment.tag(0x927C))).contains("PRV-003");
        assertThat(rules(ExifSegment.orientation(1), ExifSegment.thumbnail())).contains("PRV-004");
    }
}
