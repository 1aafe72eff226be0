package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("What is filed stays as it is when the practice's settings change")
class SettingsChangedTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String PHOTO = "IMG_0002_occlusal-maxillary-mirror.JPG";

    @TempDir
    Path folder;

    private EmbeddedArchive archive;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
        photograph(PHOTO, "zoe-teeth-front-occlusion");
        views("mirror = \"front\"");
        assertThat(practice().intake(WORKSHOP, CLOCK).exit()).isZero();
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private void photograph(String name, String sample) throws IOException {
        Path patient = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(patient.resolve(name), Samples.jpeg(Samples.photo(sample), PhotoSize.THUMBNAIL));
    }

    private void views(String text) throws IOException {
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                ask-archive = false
                [pictures]
                keep-raw = false
                edge = "trim"
                [views]
                %s
                """.formatted(practice().dayList(), text));
    }

    private Ran settle(String... words) {
        return practice()
                .run(
                        new SettleCommand(WORKSHOP, CLOCK),
                        Stream.concat(Stream.of(PHOTO), Stream.of(words)).toArray(String[]::new));
    }

    private void deliver() {
        Ran served = practice().serve(WORKSHOP, CLOCK, archive.port());
        assertThat(served.exit()).as(served.err()).isZero();
    }

    private String status() {
        return practice().run(new StatusCommand(CLOCK)).out();
    }

    private long objects() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            return files.filter(file -> file.toString().endsWith(".dcm")).count();
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--stage before",
                "--study new",
                "--set ortho-records-8",
                "--capture mirror-front",
                "--teeth 11",
                "--retry"
            })
    @DisplayName("whatever a person had said of it before, when another photograph of the day comes")
    void wordsThatWereHeard(String word) throws IOException {
        assertThat(settle(word.split(" ", -1)).exit()).isZero();
        deliver();
        assertThat(objects()).isEqualTo(1);
        views("mirror = \"behind\"");
        photograph("IMG_0009_teeth-front-occlusion.JPG", "hanako-teeth-front-occlusion");
        assertThat(practice().intake(WORKSHOP, CLOCK).exit()).isZero();
        assertThat(status()).contains("1 waiting", "1 committed").doesNotContain("taken back");
        deliver();
        assertThat(objects()).as("one of each photograph").isEqualTo(2);
    }

    @Test
    @DisplayName("a word that changes nothing of it makes no second object of it in the way of the new settings")
    void wordThatChangesNothing() throws IOException {
        deliver();
        views("mirror = \"front\"\nupper-occlusal = \"incisors-at-bottom\"");
        Ran settled = settle("--patient", "PG-0001", "--by", "an assistant");
        assertThat(settled.exit()).isZero();
        assertThat(settled.out()).contains("committed").doesNotContain("taken back");
        deliver();
        assertThat(objects()).isEqualTo(1);
        assertThat(status()).contains("1 committed").contains("may be cleared");
    }

    @Test
    @DisplayName("a word on the patient takes the view along as it was filed, whatever the mirror is held like by now")
    void viewOfAnotherPatient() throws IOException {
        deliver();
        views("mirror = \"behind\"");
        assertThat(settle("--patient", "PG-0005").out()).contains("filed under the wrong patient");
        deliver();
        assertThat(captures()).hasSize(2).containsOnly("capture=mirror-front, correction=flip-vertical");
        assertThat(settle("--capture", "mirror-behind").out()).contains("filed with a wrong view");
    }

    @ParameterizedTest(name = "{2}, filed with {0}, by now {1}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '"',
            value = {
                "mirror = 'front'|mirror = 'behind'|--stage before|capture=mirror-front, correction=flip-vertical",
                "mirror = 'front'|mirror = 'behind'|--teeth 11|capture=mirror-front, correction=flip-vertical",
                "mirror = 'front'|mirror = 'behind'|--set ortho-records-8 --stage before|capture=mirror-front, correction=flip-vertical",
                "mirror = 'front'|mirror = 'in-camera'|--stage before|capture=mirror-front, correction=flip-vertical",
                "mirror = 'in-camera'|mirror = 'front'|--stage before|capture=mirror-flipped, correction=in-camera",
                "mirror = 'front'||--stage before|capture=mirror-front, correction=flip-vertical",
                "mirror = 'behind'|mirror = 'front'|--stage before|capture=mirror-behind, correction=flip-horizontal",
                "mirror = 'front-rolled-left'|mirror = 'front'|--stage before|capture=mirror-front, correction=transpose",
                "mirror = 'front-rolled-left'|mirror = 'behind'|--capture mirror-front --stage before|capture=mirror-front, correction=transpose",
            })
    @DisplayName("a word on another matter makes another object of it, taken and put right as it was filed")
    void takenAsFiled(String filed, String now, String word, String expected) throws IOException {
        views(filed);
        assertThat(settle("--stage", "early").exit()).isZero();
        deliver();
        views(now == null ? "" : now);
        Ran settled = settle(word.split(" ", -1));
        assertThat(settled.out()).contains("waiting", "taken back in the archive");
        deliver();
        assertThat(objects()).as("two pictures and a note").isEqualTo(3);
        assertThat(captures()).hasSize(2).containsOnly(expected);
    }

    @Test
    @DisplayName("and so does the slip that it is no photograph, once it is taken back")
    void slip() throws IOException {
        deliver();
        views("mirror = \"behind\"");
        assertThat(settle("--not-a-photograph").out()).contains("set-aside");
        assertThat(settle("--retry").out()).contains("waiting");
        deliver();
        assertThat(captures()).hasSize(2).containsOnly("capture=mirror-front, correction=flip-vertical");
    }

    @Test
    @DisplayName("a word that says of it what was filed says nothing new, and a tooth that does not fit is a question")
    void asItWasFiled() throws IOException {
        deliver();
        views("mirror = \"behind\"");
        for (String word : List.of("--view occlusal-maxillary-mirror", "--capture mirror-front")) {
            assertThat(settle(word.split(" ", -1)).out())
                    .as(word)
                    .contains("committed")
                    .doesNotContain("taken back");
        }
        assertThat(settle("--teeth", "31").out()).contains("view-contradiction", "stands in the other one");
        assertThat(settle("--teeth", "11").out()).contains("filed with a wrong view");
        deliver();
        assertThat(captures()).hasSize(2).containsOnly("capture=mirror-front, correction=flip-vertical");
        assertThat(settle("--correct-by", "transpose").out()).contains("filed with a wrong view");
        deliver();
        assertThat(captures()).hasSize(3).contains("capture=mirror-front, correction=transpose");
    }

    @Test
    @DisplayName("a flip that was said by mistake is taken back, and the usual one counts again")
    void flipTakenBack() throws IOException {
        deliver();
        assertThat(settle("--correct-by", "transpose").out()).contains("filed with a wrong view");
        deliver();
        assertThat(settle("--correct-by", "usual").out()).contains("filed with a wrong view");
        deliver();
        assertThat(captures())
                .containsExactlyInAnyOrder(
                        "capture=mirror-front, correction=flip-vertical",
                        "capture=mirror-front, correction=transpose",
                        "capture=mirror-front, correction=flip-vertical");
    }

    @Test
    @DisplayName("a direct picture is not turned, though the operator stands behind the head by now")
    void directAsFiled() throws IOException {
        String direct = "IMG_0003_anterior-maxillary-front.JPG";
        photograph(direct, "zoe-face-front-smile");
        assertThat(practice().intake(WORKSHOP, CLOCK).exit()).isZero();
        deliver();
        views("direct = \"behind\"");
        assertThat(practice()
                        .run(new SettleCommand(WORKSHOP, CLOCK), direct, "--stage", "before")
                        .out())
                .contains("wrong detail");
        deliver();
        assertThat(captures()).hasSize(3).noneMatch(capture -> capture.contains("behind"));
    }

    @Test
    @DisplayName("a copy whose name says another capture stays a question, until a person says the capture")
    void copyOfAnotherCapture() throws IOException {
        deliver();
        photograph("mirror-behind_" + PHOTO, "zoe-teeth-front-occlusion");
        assertThat(practice().intake(WORKSHOP, CLOCK).out()).contains("filed-as-another-view");
        for (String word : List.of("--stage before", "--view occlusal-maxillary-mirror")) {
            assertThat(settle(word.split(" ", -1)).out()).as(word).contains("filed-as-another-view");
        }
        assertThat(settle("--capture", "mirror-front").out()).contains("waiting", "wrong detail");
        deliver();
        assertThat(captures()).hasSize(2).containsOnly("capture=mirror-front, correction=flip-vertical");
    }

    /** How the pictures in the archive say they were taken, those of notes left out. */
    private List<String> captures() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            List<String> captures = new ArrayList<>();
            for (Path file :
                    files.filter(one -> one.toString().endsWith(".dcm")).toList()) {
                DicomFile.read(file)
                        .dataSet()
                        .text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION)
                        .map(text -> Stream.of(text.split("; ", -1))
                                .filter(part -> part.startsWith("capture=") || part.startsWith("correction="))
                                .collect(Collectors.joining(", ")))
                        .ifPresent(captures::add);
            }
            return captures;
        }
    }
}
