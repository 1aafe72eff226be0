package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rulings;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("What a person says about a photograph counts for what it is about, and for nothing else")
class SaidAboutTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String SAMPLE = "zoe-teeth-front-occlusion";
    private static final Patient ZOE = PracticeFolder.ZOE;
    private static final Patient HANAKO = PracticeFolder.HANAKO;

    @TempDir
    Path folder;

    @BeforeEach
    void practiceOfTwoViews() throws IOException {
        Files.createDirectories(folder.resolve("card"));
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                day-list = '%s'
                ask-archive = false
                [sets]
                usual = "two"
                [sets.own.two]
                name = "Two"
                views = ["teeth-front-occlusion", "teeth-front-apart"]
                %s
                """.formatted(practice().dayList(), PracticeFolder.CLOCK_IS_RIGHT));
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    /** All frames are of one camera and one second, so that their names say in which order they were taken. */
    private void card(String name, Patient patient) throws IOException {
        put(name, CardPictures.like(SAMPLE, patient, false));
    }

    private void photo(String name) throws IOException {
        put(name, Samples.jpeg(Samples.photo(SAMPLE), PhotoSize.THUMBNAIL));
    }

    /** With the name as a comment, since the same bytes would be the same photograph. */
    private void put(String name, byte[] picture) throws IOException {
        byte[] comment = name.getBytes(StandardCharsets.US_ASCII);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(picture, 0, 2);
        out.write(new byte[] {(byte) 0xFF, (byte) 0xFE, 0, (byte) (comment.length + 2)});
        out.write(comment);
        out.write(picture, 2, picture.length - 2);
        Files.write(folder.resolve("card").resolve(name), out.toByteArray());
    }

    private Ran intake() {
        return practice().intake(WORKSHOP, CLOCK);
    }

    private Ran settle(String... words) {
        return practice().run(new SettleCommand(WORKSHOP, CLOCK), words);
    }

    private Overview.Photograph shown(String name) throws Exception {
        try (Keeping keeping = keeping()) {
            return shown(keeping, name);
        }
    }

    private static Overview.Photograph shown(Keeping keeping, String name) throws IOException {
        return keeping.outbox().overview().named(name).get(0);
    }

    /** Whom a photograph is decided to show. */
    private String patient(String name) throws Exception {
        try (Keeping keeping = keeping()) {
            Overview overview = keeping.outbox().overview();
            String decision =
                    overview.decision(overview.named(name).get(0).photo()).orElse(DecisionText.NOTHING.json());
            return DecisionText.read(decision).patient().map(Patient::id).orElse("nobody");
        }
    }

    private Keeping keeping() throws Exception {
        Settings settings = Settings.read(folder.resolve("vestibule.toml"));
        return Keeping.openExisting(folder.resolve("home"), settings, CLOCK);
    }

    /** A card and two photographs after it, whose views the set proposes and a person accepts. */
    private void acceptedViews() throws Exception {
        card("IMG_0001.JPG", ZOE);
        photo("IMG_0003.JPG");
        photo("IMG_0004.JPG");
        assertThat(intake().out()).contains("order-proposes");
        Ran accepted = settle("IMG_0003.JPG", "IMG_0004.JPG", "--accept");
        assertThat(accepted.exit()).as(accepted.err()).isZero();
        assertThat(patient("IMG_0003.JPG")).isEqualTo("PG-0001");
    }

    @Test
    @DisplayName(
            "who accepted a view said nothing of the patient: a card that comes late is in doubt, and is asked about")
    void acceptedViewAndLateCard() throws Exception {
        acceptedViews();
        card("IMG_0002.JPG", HANAKO);
        intake();
        assertThat(shown("IMG_0003.JPG").reason()).contains("evidence-disagrees");
        assertThat(shown("IMG_0004.JPG").reason()).contains("evidence-disagrees");
        settle("IMG_0003.JPG", "--patient", "PG-0005");
        assertThat(patient("IMG_0003.JPG")).isEqualTo("PG-0005");
        settle("IMG_0002.JPG", "--patient", "PG-0005");
        assertThat(shown("IMG_0004.JPG").reason()).isEmpty();
        assertThat(patient("IMG_0004.JPG"))
                .as("a later word on the card counts for all that follows")
                .isEqualTo("PG-0005");
    }

    @Test
    @DisplayName("a word on the card counts for all that follows, also where a view was accepted before")
    void acceptedViewAndCardCorrected() throws Exception {
        acceptedViews();
        settle("IMG_0001.JPG", "--patient", "PG-0005");
        assertThat(patient("IMG_0003.JPG")).isEqualTo("PG-0005");
        assertThat(patient("IMG_0004.JPG")).isEqualTo("PG-0005");
        assertThat(shown("IMG_0003.JPG").reason()).isEmpty();
    }

    @Test
    @DisplayName("what nobody was shown is not accepted: while the day list is away there is no proposal")
    void acceptedBlindly() throws Exception {
        Path list = folder.resolve("today.csv");
        Path away = Files.move(list, folder.resolve("away.csv"));
        card("IMG_0001.JPG", ZOE);
        photo("IMG_0002.JPG");
        photo("IMG_0003.JPG");
        assertThat(intake().exit()).isEqualTo(75);
        Ran accepted = settle("IMG_0002.JPG", "--accept");
        assertThat(accepted.exit()).isEqualTo(1);
        assertThat(accepted.err()).contains("nothing is proposed that could be accepted (waiting)");
        Files.move(away, list);
        assertThat(intake().exit()).isEqualTo(1);
        assertThat(shown("IMG_0002.JPG").reason()).contains("order-proposes");
        settle("IMG_0002.JPG", "IMG_0003.JPG", "--accept");
        assertThat(shown("IMG_0002.JPG").reason()).isEmpty();
        assertThat(settle("IMG_0002.JPG", "--accept").exit()).as("once more").isEqualTo(1);
    }

    @Test
    @DisplayName("that something was let stand, or whose it is, accepts no view that is proposed later")
    void acceptedSomethingElse() throws Exception {
        card("IMG_0001.JPG", ZOE);
        photo("IMG_0002.JPG");
        photo("IMG_0003.JPG");
        intake();
        try (Keeping keeping = keeping()) {
            String photo = shown(keeping, "IMG_0002.JPG").photo();
            for (String accepted : List.of("yes", DecisionText.NOTHING.with(ZOE).json())) {
                keeping.outbox()
                        .rulings()
                        .say(photo, List.of(new Rulings.Said("accept", accepted, Optional.empty(), CLOCK.instant())));
            }
        }
        intake();
        assertThat(shown("IMG_0002.JPG").reason()).contains("order-proposes");
        assertThat(shown("IMG_0002.JPG").proposal()).isPresent();
    }

    @Test
    @DisplayName("that it is no photograph, or not to be filed, is taken back by whatever is said of it later")
    void takenBack() throws Exception {
        card("IMG_0001.JPG", ZOE);
        photo("IMG_0002_teeth-front-occlusion.JPG");
        intake();
        for (String slip : List.of("--not-a-photograph", "--discard")) {
            for (String word :
                    List.of("--view teeth-front-occlusion", "--patient PG-0001", "--stage start", "--retry")) {
                settle("IMG_0002_teeth-front-occlusion.JPG", slip);
                assertThat(shown("IMG_0002_teeth-front-occlusion.JPG").state()).isEqualTo(PhotoState.SET_ASIDE);
                Ran ran = settle(("IMG_0002_teeth-front-occlusion.JPG " + word).split(" ", -1));
                assertThat(ran.exit()).as(slip + word + ran.err()).isZero();
                assertThat(ran.out()).as(slip + word).contains("  waiting");
                assertThat(patient("IMG_0002_teeth-front-occlusion.JPG")).isEqualTo("PG-0001");
            }
        }
    }

    @Test
    @DisplayName("a word that changes nothing about what is set aside is not answered as if it did")
    void inVain() throws Exception {
        card("IMG_0001.JPG", ZOE);
        intake();
        Ran ran = settle("IMG_0001.JPG", "--capture", "direct");
        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out()).contains("set-aside  It is a patient card.");
        assertThat(ran.err()).contains("IMG_0001.JPG: it is set aside, and what was said does not change that");
        assertThat(settle("IMG_0001.JPG", "--patient", "PG-0005").exit()).isZero();
    }

    @Test
    @DisplayName("a card that is filed as a photograph, for the patient holds it, still counts for what follows")
    void viewOfACard() throws Exception {
        card("IMG_0001.JPG", ZOE);
        photo("IMG_0002_teeth-front-occlusion.JPG");
        card("IMG_0003.JPG", HANAKO);
        photo("IMG_0004_teeth-front-occlusion.JPG");
        assertThat(intake().exit()).isZero();
        for (String[] words : new String[][] {{}, {"--patient", "PG-0005"}}) {
            settle(Stream.concat(Stream.of("IMG_0003.JPG", "--view", "face-front-smile"), Stream.of(words))
                    .toArray(String[]::new));
            assertThat(shown("IMG_0003.JPG").state()).isEqualTo(PhotoState.WAITING);
            assertThat(patient("IMG_0002_teeth-front-occlusion.JPG")).isEqualTo("PG-0001");
            assertThat(patient("IMG_0003.JPG")).isEqualTo("PG-0005");
            assertThat(patient("IMG_0004_teeth-front-occlusion.JPG")).isEqualTo("PG-0005");
        }
    }

    @Test
    @DisplayName("one study that is said of photographs of two patients is filed for one of them; the other asks")
    void oneStudyOfTwo() throws Exception {
        card("IMG_0001.JPG", ZOE);
        photo("IMG_0002_teeth-front-occlusion.JPG");
        card("IMG_0003.JPG", HANAKO);
        photo("IMG_0004_teeth-front-occlusion.JPG");
        intake();
        settle("IMG_0002_teeth-front-occlusion.JPG", "IMG_0004_teeth-front-occlusion.JPG", "--study", "1.2.3.4");
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            practice().serve(WORKSHOP, CLOCK, archive.port());
        }
        try (Keeping keeping = keeping()) {
            assertThat(keeping.outbox().consignments().in("1.2.3.4")).hasSize(1);
            assertThat(keeping.outbox().overview().in(PhotoState.NEEDS_ATTENTION, PhotoState.REJECTED))
                    .singleElement()
                    .satisfies(one -> assertThat(one.reason()).contains("study-of-another-patient"));
        }
    }
}
