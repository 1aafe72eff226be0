package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;
import vestibule.validator.Validator;

@DisplayName("What was filed and is decided otherwise is taken back")
class CorrectionsTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String PHOTO = "IMG_0001_teeth-front-occlusion.JPG";

    @TempDir
    Path folder;

    private EmbeddedArchive archive;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
        Path patient = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(
                patient.resolve(PHOTO), Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        settings("note");
    }

    private void settings(String rejection) throws IOException {
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                ask-archive = false
                [study]
                rejection = "%s"
                """.formatted(practice().dayList(), rejection));
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private Ran run(Command command, String... words) {
        return practice().run(command, words);
    }

    private void filed() {
        Ran taken = practice().intake(WORKSHOP, CLOCK);
        assertThat(taken.exit()).as(taken.out() + taken.err()).isZero();
        deliver();
        assertThat(objects()).hasSize(1);
    }

    private void deliver() {
        Ran served = practice().serve(WORKSHOP, CLOCK, archive.port());
        assertThat(served.exit()).as(served.err()).isZero();
    }

    private Ran settle(String... words) {
        return run(
                new SettleCommand(WORKSHOP, CLOCK),
                Stream.concat(Stream.of(PHOTO), Stream.of(words)).toArray(String[]::new));
    }

    private Ran status() {
        return run(new StatusCommand(CLOCK));
    }

    /** What the archive has, photographs and notes, in the order they came. */
    private List<DataSet> objects() {
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            return files.filter(file -> file.toString().endsWith(".dcm"))
                    .sorted(java.util.Comparator.comparing(file -> file.toFile().lastModified()))
                    .map(CorrectionsTest::read)
                    .toList();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static DataSet read(Path file) {
        try {
            return DicomFile.read(file).dataSet();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private List<DataSet> ofClass(String uid) {
        return objects().stream()
                .filter(object -> text(object, Attributes.SOP_CLASS_UID).equals(uid))
                .toList();
    }

    private List<DataSet> photographs() {
        return ofClass(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value());
    }

    private List<DataSet> notes() {
        return ofClass(Uids.KEY_OBJECT_SELECTION_DOCUMENT_STORAGE.value());
    }

    private static String text(DataSet object, Attribute attribute) {
        return object.text(attribute).orElse("");
    }

    /** The objects that a note names. */
    private static List<String> named(DataSet note) {
        return note.items(Attributes.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE).stream()
                .flatMap(study -> study.items(Attributes.REFERENCED_SERIES_SEQUENCE).stream())
                .flatMap(series -> series.items(Attributes.REFERENCED_SOP_SEQUENCE).stream())
                .map(item -> text(item, Attributes.REFERENCED_SOP_INSTANCE_UID))
                .toList();
    }

    private static String title(DataSet note) {
        return text(note.items(Attributes.CONCEPT_NAME_CODE_SEQUENCE).get(0), Attributes.CODE_VALUE);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--view|nonsense|--view: there is no view nonsense; close to it are|vestibule views lists all.",
                "--like|nonsense|--like: there is no view nonsense; close to it are|vestibule views lists all.",
                "--set|nonsense|--set: there is no set nonsense|vestibule sets lists all.",
                "--capture|sideways|--capture: there is no capture sideways; expected|direct",
                "--correct-by|magic|--correct-by: there is no correction magic; expected|turn-180",
                "--teeth|99|--teeth: there is no tooth 99; expected two digits|ISO 3950",
                "--study|nonsense|--study: found something else, expected a unique identifier|or new",
                "--patient|{|--patient: found something else, expected a patient id|birthDate"
            })
    @DisplayName("a word that names nothing there is, is refused at once and not kept")
    void wrongWords(String option, String word, String start, String end) {
        filed();
        String before = status().out();
        Ran ran = settle(option, word);
        assertThat(ran.exit()).as(ran.err()).isEqualTo(2);
        assertThat(ran.err())
                .startsWith("vestibule settle: " + start)
                .contains(end)
                .hasSizeLessThan(400);
        assertThat(status().out()).isEqualTo(before);
        deliver();
        assertThat(objects()).hasSize(1);
    }

    @Test
    @DisplayName("another patient: a new object in another study, and a note in the old study that names the old one")
    void patient() {
        filed();
        DataSet wrong = photographs().get(0);
        Ran settled = settle("--patient", "PG-0005", "--by", "an assistant");
        assertThat(settled.out())
                .contains("waiting", "to be taken back in the archive", "filed under the wrong patient")
                .contains("a rejection note does it when it is delivered");
        assertThat(status().out()).contains("to be taken back in the archive");
        deliver();
        assertThat(photographs()).hasSize(2);
        DataSet right = photographs().stream()
                .filter(object -> text(object, Attributes.PATIENT_ID).equals("PG-0005"))
                .findFirst()
                .orElseThrow();
        for (Attribute identity :
                List.of(Attributes.SOP_INSTANCE_UID, Attributes.STUDY_INSTANCE_UID, Attributes.SERIES_INSTANCE_UID)) {
            assertThat(text(right, identity)).as(identity.keyword()).isNotEqualTo(text(wrong, identity));
        }
        DataSet note = notes().get(0);
        assertThat(notes()).hasSize(1);
        assertThat(named(note)).containsExactly(text(wrong, Attributes.SOP_INSTANCE_UID));
        assertThat(title(note)).isEqualTo("113037");
        assertThat(text(note, Attributes.PATIENT_ID)).isEqualTo("PG-0001");
        assertThat(text(note, Attributes.PATIENT_NAME)).isEqualTo("Exempel^Zoë^Åsa");
        assertThat(text(note, Attributes.STUDY_INSTANCE_UID)).isEqualTo(text(wrong, Attributes.STUDY_INSTANCE_UID));
        assertThat(status().exit()).isZero();
        assertThat(status().out())
                .contains("1 photograph: 0 waiting, 0 needs-attention, 0 sent, 1 committed")
                .contains("may be cleared")
                .doesNotContain("taken back");
    }

    @Test
    @DisplayName("back to the first patient: a third identifier, since one that was taken back is not used again")
    void thereAndBack() throws IOException {
        filed();
        String first = text(photographs().get(0), Attributes.SOP_INSTANCE_UID);
        settle("--patient", "PG-0005");
        deliver();
        settle("--patient", "PG-0001");
        deliver();
        assertThat(photographs()).hasSize(3);
        assertThat(photographs())
                .filteredOn(object -> text(object, Attributes.PATIENT_ID).equals("PG-0001"))
                .extracting(object -> text(object, Attributes.SOP_INSTANCE_UID))
                .hasSize(2)
                .doesNotHaveDuplicates()
                .contains(first);
        List<String> all =
                notes().stream().flatMap(note -> named(note).stream()).toList();
        assertThat(all).hasSize(2).doesNotHaveDuplicates().contains(first);
        assertThat(status().exit()).as(status().out()).isZero();
        for (DataSet note : notes()) {
            assertThat(Validator.standard()
                            .validate(note, vestibule.dicom.io.TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN)
                            .errors())
                    .isEmpty();
        }
    }

    private static String study(List<DataSet> objects, String patient) {
        return text(
                objects.stream()
                        .filter(object -> text(object, Attributes.PATIENT_ID).equals(patient))
                        .findFirst()
                        .orElseThrow(),
                Attributes.STUDY_INSTANCE_UID);
    }

    @Test
    @DisplayName(
            "a study that a person named stays the patient's it was said of, and counts again for that patient alone")
    void studyOfOne() {
        practice().intake(WORKSHOP, CLOCK);
        assertThat(settle("--study", "1.2.3.4.5").exit()).isZero();
        deliver();
        assertThat(study(photographs(), "PG-0001")).isEqualTo("1.2.3.4.5");
        assertThat(settle("--patient", "PG-0005").exit()).isZero();
        deliver();
        assertThat(study(photographs(), "PG-0005")).startsWith("2.25.");
        assertThat(notes()).hasSize(1);
        assertThat(status().exit()).as(status().out()).isZero();
        settle("--patient", "PG-0001");
        deliver();
        assertThat(photographs())
                .filteredOn(object -> text(object, Attributes.PATIENT_ID).equals("PG-0001"))
                .extracting(object -> text(object, Attributes.STUDY_INSTANCE_UID))
                .containsExactly("1.2.3.4.5", "1.2.3.4.5");
    }

    @Test
    @DisplayName("a study in which we filed another patient is a question, whoever names it, until another is named")
    void studyOfTwo() {
        filed();
        String ofZoe = study(photographs(), "PG-0001");
        Ran ran = settle("--patient", "PG-0005", "--study", ofZoe);
        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out()).contains("study-of-another-patient", "say which study it is, or new");
        deliver();
        assertThat(objects()).as("nothing more is sent").hasSize(1);
        assertThat(settle("--study", "new").exit()).isZero();
        deliver();
        assertThat(study(photographs(), "PG-0005")).startsWith("2.25.").isNotEqualTo(ofZoe);
    }

    @Test
    @DisplayName("a study cannot be named before anybody knows whose the photograph is, but together with the patient")
    void studyOfNobody() throws IOException {
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                day-list = '%s'
                ask-archive = false
                """.formatted(practice().dayList()));
        practice().intake(WORKSHOP, CLOCK);
        Ran refused = settle("--study", "1.2.3.4.5");
        assertThat(refused.exit()).isEqualTo(1);
        assertThat(refused.err()).contains("nobody knows yet whose it is", "say --patient with it");
        assertThat(settle("--patient", "PG-0001", "--study", "1.2.3.4.5").exit())
                .isZero();
        deliver();
        assertThat(study(photographs(), "PG-0001")).isEqualTo("1.2.3.4.5");
    }

    @Test
    @DisplayName("another view: taken back for patient safety; the same view said again changes nothing")
    void view() {
        filed();
        String wrong = text(photographs().get(0), Attributes.SOP_INSTANCE_UID);
        assertThat(settle("--view", "teeth-front-occlusion").out()).doesNotContain("taken back");
        deliver();
        assertThat(objects()).hasSize(1);
        assertThat(settle("--view", "teeth-front-apart").out()).contains("filed with a wrong view");
        deliver();
        assertThat(notes()).hasSize(1);
        assertThat(named(notes().get(0))).containsExactly(wrong);
        assertThat(photographs())
                .extracting(object -> text(object, Attributes.SOP_INSTANCE_UID))
                .hasSize(2)
                .doesNotHaveDuplicates();
    }

    @Test
    @DisplayName("where the archive takes no notes it stays on the list until a person says that it is done")
    void byHand() throws IOException {
        settings("person");
        filed();
        String wrong = text(photographs().get(0), Attributes.SOP_INSTANCE_UID);
        assertThat(settle("--patient", "PG-0005").out())
                .contains(wrong, "do it there by hand, then say settle --taken-back");
        deliver();
        assertThat(notes()).isEmpty();
        assertThat(photographs()).hasSize(2);
        Ran waiting = status();
        assertThat(waiting.exit()).isEqualTo(1);
        assertThat(waiting.out()).contains("1 committed", wrong, "do it there by hand");
        assertThat(run(new StatusCommand(CLOCK), "--json").out())
                .contains("\"takeBack\":[{", "\"object\":\"" + wrong + "\"", "\"byHand\":true");
        Ran done = settle("--taken-back", "--by", "an administrator");
        assertThat(done.exit()).as(done.err()).isZero();
        assertThat(status().exit()).isZero();
        assertThat(status().out()).doesNotContain(wrong);
        assertThat(settle("--taken-back").exit()).isEqualTo(2);
    }

    @Test
    @DisplayName("the same bytes in another patient's folder, once they are filed: a person has to say whose they are")
    void againInAnothersFolder() throws IOException {
        filed();
        Path other = Files.createDirectories(folder.resolve("card/PG-0005"));
        Files.copy(folder.resolve("card/PG-0001").resolve(PHOTO), other.resolve(PHOTO));
        practice().intake(WORKSHOP, CLOCK);
        deliver();
        assertThat(status().out()).contains("1 needs-attention", "filed-under-another-patient", "must not be cleared");
        assertThat(objects()).hasSize(1);
    }

    @Test
    @DisplayName("a copy that turns up under the name of another view, after it was filed, stops and keeps the card")
    void againUnderAnotherView() throws IOException {
        filed();
        Path copies = Files.createDirectories(folder.resolve("card/PG-0001/teeth-buccal-left-direct"));
        Files.copy(folder.resolve("card/PG-0001").resolve(PHOTO), copies.resolve("x.JPG"));
        Ran taken = practice().intake(WORKSHOP, CLOCK);
        assertThat(taken.exit()).as(taken.out()).isEqualTo(1);
        assertThat(taken.out()).contains("filed-as-another-view");
        assertThat(status().out()).contains("1 needs-attention").contains("must not be cleared");
        assertThat(settle("--view", "teeth-front-occlusion").out()).doesNotContain("filed-as-another-view");
        deliver();
        assertThat(status().out()).contains("1 committed").contains("may be cleared");
        assertThat(objects()).as("what was filed was right").hasSize(1);
        Path again = Files.createDirectories(folder.resolve("card/PG-0001/teeth-buccal-right-direct"));
        Files.copy(folder.resolve("card/PG-0001").resolve(PHOTO), again.resolve("y.JPG"));
        assertThat(practice().intake(WORKSHOP, CLOCK).exit())
                .as("a person said the view, so no name is asked about it again")
                .isZero();
    }

    @Test
    @DisplayName("no photograph after all: what is filed is put on the list, not forgotten")
    void noPhotograph() {
        filed();
        String wrong = text(photographs().get(0), Attributes.SOP_INSTANCE_UID);
        settle("--view", "teeth-front-apart");
        assertThat(status().out()).contains(wrong, "a rejection note does it when it is delivered");
        settle("--not-a-photograph");
        assertThat(status().out())
                .contains("1 set-aside", wrong, "to be taken back in the archive")
                .as("nothing of it is sent any more, so no note is")
                .contains("do it there by hand, then say settle --taken-back");
        assertThat(status().exit()).isEqualTo(1);
    }

    @Test
    @DisplayName("filed, said to be no photograph by a slip, and a photograph after all: it is filed anew, and once")
    void photographAfterAll() {
        filed();
        String first = text(photographs().get(0), Attributes.SOP_INSTANCE_UID);
        settle("--not-a-photograph");
        assertThat(status().out()).contains("1 set-aside", first, "to be taken back in the archive");
        Ran again = settle("--retry");
        assertThat(again.exit()).as(again.err()).isZero();
        assertThat(again.out()).contains("waiting", first, "a rejection note does it when it is delivered");
        deliver();
        assertThat(photographs())
                .extracting(object -> text(object, Attributes.SOP_INSTANCE_UID))
                .hasSize(2)
                .doesNotHaveDuplicates();
        assertThat(notes()).hasSize(1);
        assertThat(named(notes().get(0))).containsExactly(first);
        assertThat(status().out()).contains("1 committed", "may be cleared").doesNotContain("taken back");
    }

    @Test
    @DisplayName(
            "what was taken out by hand stays set aside, until a person says that it is a photograph: then it is sent")
    void photographAfterItWasTakenOut() {
        filed();
        String first = text(photographs().get(0), Attributes.SOP_INSTANCE_UID);
        settle("--not-a-photograph");
        assertThat(settle("--taken-back").out()).contains("set-aside");
        deliver();
        assertThat(status().out()).contains("1 set-aside").doesNotContain("taken back");
        assertThat(settle("--view", "teeth-front-occlusion").out()).contains("waiting");
        deliver();
        assertThat(notes()).isEmpty();
        assertThat(photographs())
                .extracting(object -> text(object, Attributes.SOP_INSTANCE_UID))
                .hasSize(2)
                .contains(first)
                .doesNotHaveDuplicates();
    }
}
