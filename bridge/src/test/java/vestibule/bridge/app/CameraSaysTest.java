package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("What a camera says of itself and of its picture, from a card to the archive")
class CameraSaysTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);

    /** What the camera of the sample says of its owner; a practice may have the patient typed there instead. */
    private static final String OWNER = "O. W. Nerson";

    /** Body Serial Number (Exif 2.31, A431H) of the practice's larger camera. */
    private static final String SERIAL = "C2007781";

    /** Two decoded samples of one picture whose blocks were moved differ by rounding only. */
    private static final int ROUNDING = 12;

    @TempDir
    Path folder;

    private EmbeddedArchive archive;
    private Path card;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
        card = Files.createDirectories(folder.resolve("card"));
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private void settings(String patients, String more) throws IOException {
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                day-list = '%s'
                ask-archive = false
                %s
                [pictures]
                keep-raw = false
                %s
                """.formatted(practice().dayList(), patients, more));
    }

    /** Takes in and delivers what is on the card; what {@code intake} said. */
    private Ran filed() {
        Ran taken = practice().intake(WORKSHOP, CLOCK);
        Ran served = practice().serve(WORKSHOP, CLOCK, archive.port());
        assertThat(served.exit()).as(served.err()).isZero();
        return taken;
    }

    private List<DataSet> objects() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            return files.filter(file -> file.toString().endsWith(".dcm"))
                    .map(CameraSaysTest::read)
                    .toList();
        }
    }

    private static DataSet read(Path file) {
        try {
            return DicomFile.read(file).dataSet();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** The sample whose camera names an owner, with another text of the same length in that place. */
    private static byte[] owned(String text) throws IOException {
        String photo = new String(
                Samples.jpeg(Samples.photo("myron-face-front-rest-lips-apart"), PhotoSize.THUMBNAIL),
                StandardCharsets.ISO_8859_1);
        assertThat(photo).contains(OWNER);
        String padded = text + "\0".repeat(OWNER.length() - text.length());
        return photo.replace(OWNER, padded).getBytes(StandardCharsets.ISO_8859_1);
    }

    @Test
    @DisplayName("a text of the camera names the patient where the practice has it so, with that as evidence")
    void text() throws IOException {
        settings("camera-field = \"owner\"\ncamera-pattern = \"{id}\"", "");
        Files.write(card.resolve("IMG_0001_face-front-rest-lips-apart.JPG"), owned("PG-0005"));
        Ran taken = filed();
        assertThat(taken.exit()).as(taken.out() + taken.err()).isZero();
        assertThat(objects()).singleElement().satisfies(object -> {
            assertThat(object.text(Attributes.PATIENT_ID)).contains("PG-0005");
            assertThat(object.text(Attributes.PATIENT_NAME)).contains("Mihon^Hanako");
        });
        assertThat(practice().run(new StatusCommand(CLOCK), "--json").out()).doesNotContain("Mihon");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @DisplayName("a text that names nobody stops, is not repeated, and without the setting nobody looks at it")
    @CsvSource({
        "camera-field = 'owner', O. W. Nerson, no-patient",
        "camera-field = 'owner', PG-0404, id-unknown",
        "camera-field = 'artist', PG-0005, no-patient",
        "one-chair = false, PG-0005, no-patient"
    })
    void noText(String setting, String owner, String reason) throws IOException {
        settings(setting + "\ncamera-pattern = '{id}'", "");
        Files.write(card.resolve("IMG_0001_face-front-rest-lips-apart.JPG"), owned(owner));
        Ran taken = filed();
        assertThat(taken.exit()).isEqualTo(1);
        assertThat(taken.out() + taken.err()).contains(reason).doesNotContain(owner);
        assertThat(objects()).isEmpty();
    }

    private void mirrorPicture(String words) throws IOException {
        Files.write(
                card.resolve("PG-0001_" + words + ".JPG"),
                Samples.jpeg(Samples.photo("zoe-occlusal-mandibular-mirror"), PhotoSize.THUMBNAIL));
    }

    @ParameterizedTest(name = "{0}: {1}")
    @DisplayName(
            "D-3: where the operator of that camera stands decides the flip, known by its serial number (trade facts F-12, F-13)")
    @CsvSource({
        "front, false, true",
        "behind, true, false",
    })
    void bySerial(String stands, boolean leftRight, boolean topBottom) throws IOException {
        settings("names = ['{id}_*']", """
                [views.mirror-of]
                "%s" = "%s"
                "Okulara P1" = "in-camera"
                """.formatted(SERIAL, stands));
        mirrorPicture("occlusal-mandibular-mirror");
        Ran taken = filed();
        assertThat(taken.exit()).as(taken.out() + taken.err()).isZero();
        assertThat(objects()).singleElement().satisfies(object -> {
            assertThat(turned(object, leftRight, topBottom)).isLessThan(ROUNDING);
            assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "A");
            assertThat(object.text(Attributes.DEVICE_SERIAL_NUMBER)).isEmpty();
        });
    }

    @Test
    @DisplayName("D-3: without a word on the camera a mirror picture asks, whatever another camera does")
    void unsaid() throws IOException {
        settings("names = ['{id}_*']", "[views.mirror-of]\n\"P100042\" = \"front\"\n");
        mirrorPicture("occlusal-mandibular-mirror");
        assertThat(filed().out()).contains("capture-not-said");
        assertThat(objects()).isEmpty();
    }

    @Test
    @DisplayName("F-14: a camera that mirrors back by itself: the picture stays as it is, and its object says so")
    void inCamera() throws IOException {
        settings("names = ['{id}_*']", "[views.mirror-of]\n\"%s\" = \"in-camera\"\n".formatted(SERIAL));
        mirrorPicture("occlusal-mandibular-mirror");
        Ran taken = filed();
        assertThat(taken.exit()).as(taken.out() + taken.err()).isZero();
        assertThat(objects()).singleElement().satisfies(object -> {
            assertThat(turned(object, false, false)).isZero();
            assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "A");
            assertThat(object.text(Attributes.DERIVATION_DESCRIPTION).orElse(""))
                    .containsIgnoringCase("camera");
        });
    }

    @Test
    @DisplayName(
            "F-61: a name that says mirror-front asks there instead of flipping a second time, until the flip is named")
    void inCameraAndMirrorFront() throws IOException {
        settings("names = ['{id}_*']", "[views.mirror-of]\n\"%s\" = \"in-camera\"\n".formatted(SERIAL));
        mirrorPicture("occlusal-mandibular-mirror_mirror-front");
        assertThat(filed().out()).contains("view-contradiction", "mirror-flipped", "flip-vertical");
        assertThat(objects()).isEmpty();
        Ran settled = practice()
                .run(
                        new SettleCommand(WORKSHOP, CLOCK),
                        "PG-0001_occlusal-mandibular-mirror_mirror-front.JPG",
                        "--correct-by",
                        "flip-vertical");
        assertThat(settled.exit()).as(settled.out() + settled.err()).isZero();
        filed();
        assertThat(objects()).singleElement().satisfies(object -> {
            assertThat(turned(object, false, true)).isLessThan(ROUNDING);
            assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "A");
        });
    }

    @Test
    @DisplayName("F-14: a direct picture of a mirror view from a camera that does no such thing is refused")
    void notInCamera() throws IOException {
        settings("names = ['{id}_*']", "[views]\nmirror = \"front\"\n");
        mirrorPicture("occlusal-mandibular-mirror_direct");
        assertThat(filed().out()).contains("view-contradiction");
        assertThat(objects()).isEmpty();
    }

    /** The same picture, and a camera or a program that notes another Exif Orientation (Exif 2.31, tag 0112H). */
    private static byte[] noting(int orientation) throws IOException {
        String photo = new String(
                Samples.jpeg(Samples.photo("zoe-occlusal-mandibular-mirror"), PhotoSize.THUMBNAIL),
                StandardCharsets.ISO_8859_1);
        String field = "\u0001\u0012\0\u0003\0\0\0\u0001\0";
        assertThat(photo).contains(field + "\u0001\0\0");
        return photo.replace(field + "\u0001\0\0", field + (char) orientation + "\0\0")
                .getBytes(StandardCharsets.ISO_8859_1);
    }

    @ParameterizedTest
    @DisplayName(
            "F-61: a mirror picture whose file notes a mirror image or half a turn waits, and what a person says is done to it")
    @CsvSource({"4, --capture, mirror-front, false, false", "3, --correct-by, flip-horizontal, false, true"})
    void notesAFlip(int orientation, String option, String word, boolean leftRight, boolean topBottom)
            throws IOException {
        settings("names = ['{id}_*']", "[views]\nmirror = \"front\"\n");
        String name = "PG-0001_occlusal-mandibular-mirror.JPG";
        Files.write(card.resolve(name), noting(orientation));
        assertThat(filed().out()).contains("view-contradiction", "Exif Orientation");
        assertThat(objects()).isEmpty();
        Ran settled = practice().run(new SettleCommand(WORKSHOP, CLOCK), name, option, word);
        assertThat(settled.exit()).as(settled.out() + settled.err()).isZero();
        filed();
        assertThat(objects()).singleElement().satisfies(object -> {
            assertThat(turned(object, leftRight, topBottom)).isLessThan(ROUNDING);
            assertThat(object.text(Attributes.DERIVATION_DESCRIPTION).orElse(""))
                    .contains("The camera noted", "Taken by mirror");
        });
    }

    @ParameterizedTest
    @DisplayName("so does wrap, for which --capture is a person's word")
    @CsvSource({"4", "3"})
    void wrapAsks(int orientation) throws IOException {
        Path photo = Files.write(card.resolve("IMG_0001.JPG"), noting(orientation));
        Path config = Files.writeString(folder.resolve("views.toml"), "[views]\nmirror = \"front\"\n");
        Path object = folder.resolve("wrapped.dcm");
        List<String> words = new ArrayList<>(List.of(
                "wrap",
                photo.toString(),
                "--out",
                object.toString(),
                "--view",
                "occlusal-mandibular-mirror",
                "--patient-id",
                "PG-0001",
                "--patient-name",
                "Exempel^Zoe",
                "--config",
                config.toString()));
        Ran asked = Ran.vestibule(words.toArray(String[]::new));
        assertThat(asked.exit()).isEqualTo(1);
        assertThat(asked.err()).contains("say the capture, mirror-front");
        assertThat(object).doesNotExist();
        words.addAll(List.of("--capture", "mirror-front"));
        Ran said = Ran.vestibule(words.toArray(String[]::new));
        assertThat(said.exit()).as(said.err()).isZero();
    }

    /** How far, at most, a sample of the object is from the sample of the photograph that such a flip brings there. */
    private static int turned(DataSet object, boolean leftRight, boolean topBottom) throws IOException {
        BufferedImage photo = ImageIO.read(new ByteArrayInputStream(
                Samples.jpeg(Samples.photo("zoe-occlusal-mandibular-mirror"), PhotoSize.THUMBNAIL)));
        BufferedImage picture = ImageIO.read(new ByteArrayInputStream(stream(object)));
        assertThat(picture.getWidth()).isEqualTo(photo.getWidth());
        assertThat(picture.getHeight()).isEqualTo(photo.getHeight());
        int most = 0;
        for (int y = 0; y < picture.getHeight(); y++) {
            for (int x = 0; x < picture.getWidth(); x++) {
                int there = photo.getRGB(
                        leftRight ? photo.getWidth() - 1 - x : x, topBottom ? photo.getHeight() - 1 - y : y);
                most = Math.max(most, Math.abs((there >> 8 & 0xFF) - (picture.getRGB(x, y) >> 8 & 0xFF)));
            }
        }
        return most;
    }

    private static byte[] stream(DataSet object) throws IOException {
        Value value = object.find(Attributes.PIXEL_DATA).orElseThrow().value();
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        for (vestibule.dicom.data.Bulk fragment : ((Value.Fragments) value).fragments()) {
            stream.writeBytes(fragment.bytes(1 << 24));
        }
        return stream.toByteArray();
    }

    @ParameterizedTest
    @CsvSource({"C2007781, 12", "Okulara C2, 12", "Okulara P1, 0"})
    @DisplayName(
            "wrap puts the camera's clock right as the service does, by serial number or model, and no other camera's")
    void clockOfOnePhotograph(String camera, int hours) throws IOException {
        Path photo = Files.write(
                card.resolve("IMG_0001.JPG"),
                Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        Path config = Files.writeString(
                folder.resolve("clocks.toml"), "[cameras.clocks]\n\"%s\" = \"+12:00:00\"\n".formatted(camera));
        Path none = Files.writeString(folder.resolve("none.toml"), "");
        assertThat(Duration.between(taken(photo, none), taken(photo, config))).isEqualTo(Duration.ofHours(hours));
    }

    private LocalDateTime taken(Path photo, Path config) throws IOException {
        Path object = folder.resolve(config.getFileName() + ".dcm");
        Ran ran = Ran.vestibule(
                "wrap",
                photo.toString(),
                "--out",
                object.toString(),
                "--view",
                "teeth-front-occlusion",
                "--patient-id",
                "PG-0001",
                "--patient-name",
                "Exempel^Zoe",
                "--config",
                config.toString());
        assertThat(ran.exit()).as(ran.err()).isZero();
        DataSet made = DicomFile.read(object).dataSet();
        String moment = made.text(Attributes.ACQUISITION_DATE_TIME).orElseThrow();
        assertThat(made.text(Attributes.CONTENT_TIME))
                .hasValueSatisfying(time -> assertThat(moment.substring(8)).startsWith(time.substring(0, 6)));
        return LocalDateTime.parse(moment.substring(0, 14), DateTimeFormatter.ofPattern("yyyyMMddHHmmss"));
    }
}
