package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Letters follow the flip of the picture when settings have arches lie the other way by now")
class LyingOtherwiseTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String PHOTO = "IMG_0001_occlusal-maxillary-mirror.JPG";
    private static final String ROLLED = "mirror = \"front-rolled-left\"";
    private static final String AT_BOTTOM = "\nupper-occlusal = \"incisors-at-bottom\"";

    @TempDir
    Path folder;

    private EmbeddedArchive archive;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private void taken(String name, String sample) throws IOException {
        Path patient = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(patient.resolve(name), Samples.jpeg(Samples.photo(sample), PhotoSize.THUMBNAIL));
        assertThat(practice().intake(WORKSHOP, CLOCK).exit()).isNotEqualTo(Exit.WRONG_SETTINGS.code());
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

    private Ran settle(String words) {
        return practice()
                .run(
                        new SettleCommand(WORKSHOP, CLOCK),
                        Stream.concat(Stream.of(PHOTO), Stream.of(words.split(" ", -1)))
                                .toArray(String[]::new));
    }

    private void deliver() {
        Ran served = practice().serve(WORKSHOP, CLOCK, archive.port());
        assertThat(served.exit()).as(served.err()).isZero();
    }

    /** How the upper arch lies in each of its objects in the archive, and by which flip. */
    private Set<String> arches() throws IOException {
        Set<String> arches = new TreeSet<>();
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            for (Path file :
                    files.filter(one -> one.toString().endsWith(".dcm")).toList()) {
                DataSet object = DicomFile.read(file).dataSet();
                Optional<String> taken = object.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION)
                        .filter(text -> text.contains("occlusal-maxillary"));
                taken.map(text -> text.replaceAll(".*correction=([a-z-]*).*", "$1"))
                        .ifPresent(flip -> arches.add(
                                String.join("\\", object.texts(Attributes.PATIENT_ORIENTATION)) + " " + flip));
            }
        }
        return arches;
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--stage before",
                "--teeth 11",
                "--correct-by transpose",
                "--correct-by transpose --stage before",
                "--capture mirror-front --stage before"
            })
    @DisplayName("of what a rolled camera took and is filed, whatever is said of it that is no other flip")
    void filed(String words) throws IOException {
        views(ROLLED);
        taken(PHOTO, "zoe-teeth-front-occlusion");
        deliver();
        views(ROLLED + AT_BOTTOM);
        settle(words);
        deliver();
        assertThat(arches()).containsExactly("L\\P transpose");
    }

    @Test
    @DisplayName("of what an upright camera took and is filed: it lies as it was filed")
    void filedUpright() throws IOException {
        views("mirror = \"front\"");
        taken(PHOTO, "zoe-teeth-front-occlusion");
        deliver();
        views("mirror = \"behind\"" + AT_BOTTOM);
        assertThat(settle("--stage before").out()).contains("wrong detail");
        assertThat(settle("--correct-by flip-vertical").out()).doesNotContain("wrong view");
        deliver();
        assertThat(arches()).containsExactly("L\\P flip-vertical");
    }

    @Test
    @DisplayName("of what is decided and still waits")
    void waiting() throws IOException {
        views(ROLLED);
        taken(PHOTO, "zoe-teeth-front-occlusion");
        views(ROLLED + AT_BOTTOM);
        deliver();
        assertThat(arches()).containsExactly("L\\P transpose");
    }

    @Test
    @DisplayName("another flip of what is filed the other way is a question, until it lies as settings say")
    void otherFlip() throws IOException {
        views(ROLLED);
        taken(PHOTO, "zoe-teeth-front-occlusion");
        deliver();
        views(ROLLED + AT_BOTTOM);
        assertThat(settle("--correct-by transverse").out())
                .contains("view-contradiction", "filed to lie L\\P", "correct-by usual first");
        deliver();
        assertThat(arches()).containsExactly("L\\P transpose");
        assertThat(settle("--correct-by usual").out()).contains("filed with a wrong view");
        deliver();
        assertThat(arches()).containsExactly("L\\P transpose", "R\\A transverse");
        assertThat(settle("--correct-by transpose").out()).contains("filed with a wrong view");
        deliver();
        assertThat(arches()).containsExactly("L\\P transpose", "R\\A transpose", "R\\A transverse");
    }

    @ParameterizedTest
    @ValueSource(strings = {"--stage before", "--view occlusal-mandibular-mirror"})
    @DisplayName("a person's flip that was decided for a picture lying otherwise is a question, until it is said again")
    void flipOfThen(String words) throws IOException {
        views("mirror = \"front\"");
        taken(PHOTO, "zoe-teeth-front-occlusion");
        assertThat(settle("--correct-by transverse").out()).contains("waiting");
        views("mirror = \"front\"" + AT_BOTTOM);
        assertThat(settle(words).out()).contains("view-contradiction", "was to lie L\\P");
        assertThat(settle("--correct-by transverse").out()).contains("waiting");
        deliver();
        if (words.startsWith("--stage")) {
            assertThat(arches()).containsExactly("R\\A transverse");
        }
    }

    @Test
    @DisplayName("of a person's flip that is filed, after a word on another matter")
    void flipThatIsFiled() throws IOException {
        views("mirror = \"front\"");
        taken(PHOTO, "zoe-teeth-front-occlusion");
        settle("--correct-by transverse");
        deliver();
        views("mirror = \"front\"" + AT_BOTTOM);
        assertThat(settle("--stage before").out()).contains("wrong detail");
        deliver();
        assertThat(arches()).containsExactly("L\\P transverse");
        assertThat(settle("--capture mirror-behind").out()).contains("view-contradiction", "was to lie L\\P");
    }
}
