package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("A filed photograph becomes another patient's only by a person's word on whose it is")
class FiledPatientTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String SAMPLE = "hanako-face-front-smile";
    private static final String PHOTO = "IMG_0003_face-front-smile.JPG";
    private static final String ANOTHER = "filed-under-another-patient";

    @TempDir
    Path folder;

    private EmbeddedArchive archive;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
        names("by/{id}/**");
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private void names(String pattern) throws IOException {
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                names = ["%s"]
                day-list = '%s'
                ask-archive = false
                %s
                """.formatted(pattern, practice().dayList(), PracticeFolder.CLOCK_IS_RIGHT));
    }

    private void put(String name, byte[] bytes) throws IOException {
        Path file = folder.resolve("card").resolve(name);
        Files.createDirectories(file.getParent());
        Files.write(file, bytes);
    }

    private void photo(String name) throws IOException {
        put(name, Samples.jpeg(Samples.photo(SAMPLE), PhotoSize.THUMBNAIL));
    }

    private Ran intake() {
        return practice().intake(WORKSHOP, CLOCK);
    }

    private Ran settle(String... words) {
        return practice()
                .run(
                        new SettleCommand(WORKSHOP, CLOCK),
                        Stream.concat(Stream.of(PHOTO), Stream.of(words)).toArray(String[]::new));
    }

    private void deliver() {
        Ran served = practice().serve(WORKSHOP, CLOCK, archive.port());
        assertThat(served.err()).isEmpty();
    }

    private long objects() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            return files.filter(file -> file.toString().endsWith(".dcm")).count();
        }
    }

    /** Filed after one patient's card; then another's comes, which was written between the two. */
    private void lateCard() throws IOException {
        put("DCIM/IMG_0001.JPG", CardPictures.like(SAMPLE, PracticeFolder.ZOE, false));
        photo("DCIM/" + PHOTO);
        assertThat(intake().exit()).isZero();
        deliver();
        assertThat(objects()).isEqualTo(1);
        put("DCIM/IMG_0002.JPG", CardPictures.like(SAMPLE, PracticeFolder.HANAKO, false));
        assertThat(intake().out()).contains(ANOTHER);
    }

    @Test
    @DisplayName("a late card's doubt outlives every word on another matter, and is answered by one on the patient")
    void wordsOnAnotherMatter() throws IOException {
        lateCard();
        for (String word : List.of(
                "--stage before",
                "--view face-front-smile",
                "--view face-front-rest-lips-closed",
                "--set ortho-records-8")) {
            Ran settled = settle(word.split(" ", -1));
            assertThat(settled.out()).as(word).contains(ANOTHER).doesNotContain("taken back");
            assertThat(settled.exit()).as(word).isEqualTo(1);
        }
        deliver();
        assertThat(objects()).as("nothing is sent meanwhile").isEqualTo(1);
        assertThat(settle("--patient", "PG-0005").out()).contains("waiting", "filed under the wrong patient");
    }

    @Test
    @DisplayName(
            "said to be no photograph by a slip, and taken back: still the question whose it is, till it is answered")
    void slip() throws IOException {
        lateCard();
        assertThat(settle("--not-a-photograph").out()).contains("set-aside");
        assertThat(settle("--retry").out()).contains(ANOTHER);
        assertThat(settle("--patient", "PG-0001").out()).contains("waiting").doesNotContain(ANOTHER);
    }

    @ParameterizedTest
    @ValueSource(strings = {"--stage before", "--view face-front-rest-lips-closed", "--set ortho-records-8"})
    @DisplayName("other settings name somebody else, and nobody noticed until a word on another matter")
    void otherSettings(String word) throws IOException {
        photo("by/PG-0001/box/PG-0005/" + PHOTO);
        assertThat(intake().exit()).isZero();
        deliver();
        names("**/box/{id}/**");
        assertThat(settle(word.split(" ", -1)).out()).contains(ANOTHER).doesNotContain("taken back");
        assertThat(settle("--patient", "PG-0001").out())
                .as("what was said before counts with it")
                .doesNotContain(ANOTHER, "filed under the wrong patient");
    }

    private static Deciding.Candidate filed(Deciding.Statement... said) {
        return new Deciding.Candidate(
                new Deciding.Photograph("p", PHOTO, List.of(), "card", Instant.EPOCH, Instant.EPOCH, List.of(said)),
                Path.of("p"),
                Optional.of(decision(PracticeFolder.ZOE).json()),
                true);
    }

    private static DecisionText decision(Patient patient) {
        return new DecisionText(
                Optional.of(patient),
                Optional.of(new DecisionText.Shown(
                        "face-front-smile",
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        List.of())),
                Visit.UNSAID,
                java.time.Duration.ZERO,
                List.of(new Ground("patient", "patient card", Instant.EPOCH, "a frame")));
    }

    private static Deciding.Statement said(String about, String value) {
        return new Deciding.Statement(about, value, Optional.empty(), Instant.EPOCH);
    }

    private static String news(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        return Standing.news(candidate, ruling)
                .map(news -> news instanceof Deciding.Doubtful doubt ? doubt.reason() : "decided")
                .orElse("nothing");
    }

    @Test
    @DisplayName("a question about the view or study of somebody else is one about the patient first, said or not")
    void questionOfSomebodyElse() {
        Deciding.Ruling study = Deciding.Doubtful.saying("p", "several-studies", "w", decision(PracticeFolder.HANAKO));
        assertThat(news(filed(), study)).isEqualTo(ANOTHER);
        assertThat(news(filed(said("stage", "before")), study)).isEqualTo(ANOTHER);
        assertThat(news(filed(said("patient", "PG-0005")), study)).isEqualTo("several-studies");
        Deciding.Ruling same = Deciding.Doubtful.saying("p", "several-studies", "w", decision(PracticeFolder.ZOE));
        assertThat(news(filed(), same)).isEqualTo("nothing");
        assertThat(news(filed(said("stage", "before")), same)).isEqualTo("several-studies");
    }

    @Test
    @DisplayName(
            "accepting a proposal of who it is counts as such a word, and accepting a view beside a patient does not")
    void accepted() {
        Deciding.Ruling other =
                new Deciding.Decided("p", decision(PracticeFolder.HANAKO).json());
        DecisionText whose = DecisionText.NOTHING.with(PracticeFolder.HANAKO);
        assertThat(news(filed(said("accept", whose.json())), other)).isEqualTo("decided");
        assertThat(news(filed(said("accept", decision(PracticeFolder.HANAKO).json())), other))
                .isEqualTo(ANOTHER);
    }
}
