package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.io.IOException;
import java.time.Duration;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

@DisplayName("Files of other people's cameras and encoders")
class CorpusStreamsTest {
    private static final Duration PATIENCE = Duration.ofSeconds(2);

    @TestFactory
    @DisplayName("of cameras and telephones are read as the index says")
    Stream<DynamicTest> camera() throws IOException {
        return Corpus.tests("camera", CorpusStreamsTest::isReadAsIndexed);
    }

    @TestFactory
    @DisplayName("with unusual but permitted structure are read as the index says")
    Stream<DynamicTest> odd() throws IOException {
        return Corpus.tests("jpeg-odd", CorpusStreamsTest::isReadAsIndexed);
    }

    @TestFactory
    @DisplayName("with an Exif orientation are read as the index says")
    Stream<DynamicTest> orientation() throws IOException {
        return Corpus.tests("jpeg-orientation", CorpusStreamsTest::isReadAsIndexed);
    }

    @TestFactory
    @DisplayName("that are broken are read or refused in one sentence, within 2 seconds")
    Stream<DynamicTest> hostile() throws IOException {
        return Corpus.tests(
                "jpeg-hostile",
                row -> assertTimeout(PATIENCE, () -> {
                    try {
                        Jpeg jpeg = Jpeg.read(row.path(), JpegLimits.DEFAULT);
                        assertThat(jpeg.fitness()).isNotNull();
                        assertThat(jpeg.essential().length()).isLessThanOrEqualTo(jpeg.length());
                    } catch (JpegFormatException refused) {
                        assertThat(refused.getMessage())
                                .startsWith("At byte ")
                                .endsWith(".")
                                .doesNotContain("\n");
                    }
                }));
    }

    private static void isReadAsIndexed(Corpus.Row row) throws IOException {
        Jpeg jpeg = Jpeg.read(row.path(), JpegLimits.DEFAULT);
        Frame frame = jpeg.frame();
        assertThat(frame.samplesPerLine()).as("width").isEqualTo(row.number("width"));
        assertThat(frame.lines()).as("height").isEqualTo(row.number("height"));
        assertThat(row.column("sof"))
                .as("process")
                .startsWith("SOF" + frame.type().number() + " ");
        assertThat(frame.precision()).as("precision").isEqualTo(row.number("precision"));
        assertThat(frame.components()).as("components").hasSize(row.number("components"));
        assertThat(frame.sampling()).as("sampling").isEqualTo(row.column("sampling"));
        assertThat(jpeg.scans()).as("scans").hasSize(row.number("scans"));
        assertThat(jpeg.scans().get(jpeg.scans().size() - 1).restartInterval())
                .as("restart interval at the end")
                .isEqualTo(row.number("restart_interval"));
        assertThat(jpeg.trailingBytes()).as("bytes after EOI").isEqualTo(row.number("bytes_after_eoi"));
        assertThat(jpeg.length()).as("length").isEqualTo(Long.parseLong(row.column("bytes")));
        metadataIsAsIndexed(jpeg, row);
    }

    private static void metadataIsAsIndexed(Jpeg jpeg, Corpus.Row row) {
        assertThat(jpeg.has(SegmentKind.JFIF))
                .as("JFIF")
                .isEqualTo(row.column("jfif").equals("yes"));
        assertThat(jpeg.adobe().map(adobe -> String.valueOf(adobe.transform())).orElse(""))
                .as("Adobe transform")
                .isEqualTo(row.column("adobe_transform"));
        assertThat(jpeg.count(SegmentKind.ICC_PROFILE)).as("ICC chunks").isEqualTo(row.number("icc_segments"));
        assertThat(jpeg.has(SegmentKind.MULTI_PICTURE))
                .as("MPF")
                .isEqualTo(row.column("mpf").equals("yes"));
        assertThat(jpeg.has(SegmentKind.XMP))
                .as("XMP")
                .isEqualTo(row.column("xmp").startsWith("yes"));
        assertThat(jpeg.exifBlock().isPresent())
                .as("Exif")
                .isEqualTo(!row.column("exif_byte_order").isEmpty());
        boolean brokenNumbers = row.column("special").contains("ICC sequence numbering broken");
        if (brokenNumbers && !row.column("file").contains("chunk_order")) {
            assertThat(jpeg.profileCondition()).isIn(ProfileCondition.MISNUMBERED, ProfileCondition.MISSING_CHUNKS);
        }
    }
}
