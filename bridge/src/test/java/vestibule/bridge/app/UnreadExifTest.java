package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.photo.ExifBlock;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("A camera's note of its turn that cannot be read, or stands in another Exif block")
class UnreadExifTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String VIEW = "teeth-front-occlusion";

    @TempDir
    Path folder;

    private byte[] picture;
    private int columns;
    private int rows;

    @BeforeEach
    void picture() throws Exception {
        picture = Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL);
        DataSet plain = object(wrap(photograph(), "--capture", "direct"));
        columns = plain.integer(Attributes.COLUMNS).orElseThrow().intValue();
        rows = plain.integer(Attributes.ROWS).orElseThrow().intValue();
        Files.delete(folder.resolve("out.dcm"));
        assertThat(columns).isNotEqualTo(rows);
    }

    private static byte[] noted(int orientation) {
        return new ExifBlock()
                .first(0x0110, "OKULAR M 100")
                .first(0x0112, orientation)
                .second(0x9003, "2026:03:12 10:00:00")
                .bytes();
    }

    private static byte[] withoutTurn() {
        return new ExifBlock()
                .first(0x0110, "OKULAR M 100")
                .second(0x9003, "2026:03:12 10:00:00")
                .bytes();
    }

    /** The first directory says that it has more entries than there is room for. */
    private static byte[] damaged() {
        byte[] block = noted(6);
        block[14] = 3;
        return block;
    }

    private Path photograph(byte[]... blocks) throws IOException {
        Path file = folder.resolve("card").resolve("PG-0001").resolve("IMG_0001_" + VIEW + ".JPG");
        Files.createDirectories(file.getParent());
        return Files.write(file, ExifBlock.in(picture, blocks));
    }

    private Ran wrap(Path photo, String... more) {
        return Ran.vestibule(Stream.concat(
                        Stream.of(
                                "wrap",
                                photo.toString(),
                                "--out",
                                folder.resolve("out.dcm").toString(),
                                "--view",
                                VIEW,
                                "--patient-id",
                                "PG-0001",
                                "--patient-name",
                                "Exempel^Zoe",
                                "--edge",
                                "trim",
                                "--study-date",
                                "2026-03-12"),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    private DataSet object(Ran ran) throws IOException {
        assertThat(ran.exit()).as(ran.err()).isZero();
        return DicomFile.read(folder.resolve("out.dcm")).dataSet();
    }

    /** Whether the picture was turned by a quarter turn. */
    private boolean isTurned(DataSet object) {
        return object.integer(Attributes.COLUMNS).orElseThrow()
                        < object.integer(Attributes.ROWS).orElseThrow()
                == columns > rows;
    }

    @Test
    @DisplayName("a turn that the second of two blocks notes alone is followed")
    void second() throws IOException {
        DataSet object = object(wrap(photograph(withoutTurn(), noted(6))));
        assertThat(isTurned(object)).isTrue();
        assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "F");
    }

    @Test
    @DisplayName("the same turn in two blocks is followed once")
    void same() throws IOException {
        assertThat(isTurned(object(wrap(photograph(noted(8), noted(8)))))).isTrue();
    }

    @Test
    @DisplayName("no Exif at all and a block without a turn ask nothing")
    void nothing() throws IOException {
        assertThat(isTurned(object(wrap(photograph())))).isFalse();
        Files.delete(folder.resolve("out.dcm"));
        assertThat(isTurned(object(wrap(photograph(withoutTurn()))))).isFalse();
    }

    private List<byte[]> blocks(String what) {
        return switch (what) {
            case "damaged" -> List.of(damaged());
            case "damaged beside one" -> List.of(noted(6), damaged());
            case "several" -> List.of(noted(1), noted(6));
            default -> List.of(noted(1), noted(1), noted(1), noted(1), noted(6));
        };
    }

    @ParameterizedTest(name = "{0}, {1}")
    @DisplayName(
            "wrap refuses what cannot be read or contradicts itself, and takes a person's word, by which alone it turns")
    @CsvSource({
        "damaged, --capture direct, false",
        "damaged beside one, --correct-by turn-90, true",
        "several, --correct-by turn-90, true",
        "several, --capture direct, false",
        "five, --capture direct, false",
    })
    void refused(String what, String answer, boolean turned) throws IOException {
        Path photo = photograph(blocks(what).toArray(byte[][]::new));
        Ran ran = wrap(photo);
        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.err()).contains("Exif", "say the capture, direct", "correct-by turn-90");
        assertThat(folder.resolve("out.dcm")).doesNotExist();
        assertThat(isTurned(object(wrap(photo, answer.split(" ", -1))))).isEqualTo(turned);
    }

    @ParameterizedTest(name = "{0}, {1}")
    @DisplayName("the service asks, and a person's word answers")
    @CsvSource({"damaged, --capture direct", "several, --correct-by turn-90"})
    void asked(String what, String answer) throws IOException {
        PracticeFolder practice = new PracticeFolder(folder);
        practice.settings("""
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                ask-archive = false
                [pictures]
                edge = "trim"
                """.formatted(practice.dayList()));
        photograph(blocks(what).toArray(byte[][]::new));
        assertThat(practice.intake(WORKSHOP, CLOCK).out())
                .contains("view-contradiction", "Exif")
                .doesNotContain("Exempel");
        String[] words = ("IMG_0001_" + VIEW + ".JPG " + answer).split(" ", -1);
        Ran settled = practice.run(new SettleCommand(WORKSHOP, CLOCK), words);
        assertThat(settled.exit()).as(settled.out() + settled.err()).isZero();
    }

    @Test
    @DisplayName("turn makes no upright picture of it, and turns as it is told")
    void turn() throws IOException {
        Path photo = photograph(noted(1), noted(6));
        String out = folder.resolve("turned.JPG").toString();
        Ran upright = Ran.vestibule("turn", photo.toString(), out, "--by", "upright");
        assertThat(upright.exit()).isEqualTo(65);
        assertThat(upright.err()).contains("Exif");
        Ran ran = Ran.vestibule("turn", photo.toString(), out, "--by", "rotate-90", "--edge", "trim");
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(isTurned(object(wrap(Path.of(out))))).isTrue();
    }
}
