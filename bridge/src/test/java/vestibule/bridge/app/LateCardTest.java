package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.intake.Listing;
import vestibule.bridge.object.Visit;
import vestibule.bridge.outbox.Consignments;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rounds;
import vestibule.bridge.outbox.Rulings;
import vestibule.bridge.patient.Diary;
import vestibule.bridge.patient.Directory;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.PersonName;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("What comes late and changes whose the photographs beside it are, from the outbox and back")
class LateCardTest {

    private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
    private static final String ONE_SITTING = "hanako-face-front-smile";
    private static final Patient ZOE = PracticeFolder.ZOE;
    private static final Patient HANAKO = PracticeFolder.HANAKO;

    @TempDir
    Path folder;

    private Instant now = NOON;
    private Instant fileTime = NOON;
    private String source = "card";
    private CaptureMoments moments;
    private boolean away;
    private boolean studiesAway;
    private Settings settings = Settings.NONE;
    private Keeping keeping;
    private DecidingDesk desk;

    @BeforeEach
    void open() throws Exception {
        Clock clock = new Clock() {
            @Override
            public ZoneOffset getZone() {
                return ZoneOffset.UTC;
            }

            @Override
            public Clock withZone(java.time.ZoneId zone) {
                return this;
            }

            @Override
            public Instant instant() {
                return now;
            }
        };
        settings = Settings.read(Files.writeString(
                folder.resolve("vestibule.toml"),
                "[home]\nreserve = \"1 MB\"\n[patients]\nnames = [\"by/{id}/**\"]\n" + PracticeFolder.CLOCK_IS_RIGHT));
        keeping = Keeping.open(folder.resolve("home"), settings, clock);
        moments = new CaptureMoments(keeping.originals(), settings, clock);
        ViewRules rules = ViewRules.of(
                settings.views(), settings.sets(), settings.practice().coding(), Optional.empty());
        Decider decider = new Decider(
                settings,
                days -> new Directories.Opened(List.of(new Archive()), Diary.EMPTY),
                new SetViewing(rules),
                Optional.of((sitting, looks) -> {
                    if (studiesAway) {
                        throw new DirectoryException("no studies, in this test", new IOException());
                    }
                    return new Studying.Visits(
                            looks.stream().map(look -> Visit.UNSAID).toList(), "in this test");
                }),
                keeping.memory(),
                clock);
        desk = new DecidingDesk(
                keeping.outbox(),
                keeping.originals(),
                decider,
                keeping.node(),
                clock,
                new Backoff(RandomGenerator.getDefault()));
    }

    @AfterEach
    void close() {
        keeping.close();
    }

    /** Both patients, unless it is away. */
    private final class Archive implements Directory {

        @Override
        public List<Known> withId(String id) throws IOException {
            asked();
            return Stream.of(ZOE, HANAKO)
                    .filter(patient -> patient.id().equals(id))
                    .map(patient -> new Known(patient, Evidence.Source.ARCHIVE, Optional.empty()))
                    .toList();
        }

        @Override
        public List<Known> named(PersonName name, LocalDate birthDate) throws IOException {
            asked();
            return List.of();
        }

        private void asked() throws IOException {
            if (away) {
                throw new DirectoryException("the archive is away, in this test", new IOException());
            }
        }
    }

    private String take(String name, byte[] bytes) throws Exception {
        String hash =
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        Path original = keeping.originals().path(hash);
        Files.createDirectories(original.getParent());
        Files.write(original, bytes);
        new OutboxRegister(
                        keeping.outbox().arrivals(),
                        moments,
                        source,
                        keeping.originals().place(),
                        keeping.owner())
                .taken(new Listing.Entry(original, name, bytes.length, fileTime), hash, Optional.empty());
        return hash;
    }

    private String card(String name, Patient patient, boolean mirrored) throws Exception {
        return take(name, CardPictures.like(ONE_SITTING, patient, mirrored));
    }

    private String photo(String name) throws Exception {
        return take(name, Samples.jpeg(Samples.photo(ONE_SITTING), PhotoSize.THUMBNAIL));
    }

    private void decide() throws IOException {
        desk.step(source -> true);
    }

    private Overview.Photograph shown(String photo) throws IOException {
        return keeping.outbox().overview().named(photo).get(0);
    }

    private List<String> claimed() throws Exception {
        keeping.outbox().nodes().alive("node", Duration.ofDays(3));
        return keeping.outbox().consignments().claim("node", keeping.originals().place(), 9).stream()
                .map(consignment -> patient(consignment.decision()))
                .toList();
    }

    private static String patient(String decision) {
        try {
            return DecisionText.read(decision).patient().orElseThrow().id();
        } catch (Failure e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    @DisplayName("a card found late, while the archive is away: nothing beside it is sent until all is decided again")
    void lateCard() throws Exception {
        card("DCIM/IMG_0001.JPG", ZOE, false);
        photo("DCIM/IMG_0003_face-front-smile.JPG");
        decide();
        away = true;
        String late = card("DCIM/IMG_0002.JPG", HANAKO, false);
        assertThat(claimed()).as("before it is decided").isEmpty();
        decide();
        assertThat(desk.troubles()).containsExactly("photographs cannot be decided: the archive is away, in this test");
        assertThat(shown(late).state()).isEqualTo(PhotoState.WAITING);
        assertThat(claimed()).as("while it cannot be decided").isEmpty();
        assertThat(keeping.outbox().overview().isDeciding(keeping.originals().place()))
                .isTrue();
        away = false;
        now = now.plus(Duration.ofMinutes(6));
        decide();
        assertThat(desk.troubles()).isEmpty();
        assertThat(shown(late).state()).isEqualTo(PhotoState.SET_ASIDE);
        assertThat(keeping.outbox().overview().isDeciding(keeping.originals().place()))
                .isFalse();
        assertThat(claimed()).containsExactly("PG-0005");
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    @DisplayName(
            "a card that the camera sends the next morning counts for what it was taken before, sent the evening before")
    void sentNextMorning(boolean filed) throws Exception {
        fileTime = Samples.photo(ONE_SITTING).taken().toInstant();
        Instant evening = fileTime;
        card("DCIM/IMG_0001.JPG", ZOE, false);
        String photo = photo("DCIM/IMG_0003_face-front-smile.JPG");
        decide();
        if (filed) {
            file();
        }
        fileTime = evening.plus(Duration.ofHours(20));
        now = NOON.plus(Duration.ofHours(20));
        card("DCIM/IMG_0002.JPG", HANAKO, false);
        assertThat(claimed()).as("before it is decided").isEmpty();
        decide();
        assertThat(shown(photo).reason())
                .isEqualTo(filed ? Optional.of("filed-under-another-patient") : Optional.empty());
        assertThat(claimed()).isEqualTo(filed ? List.of() : List.of("PG-0005"));
    }

    @ParameterizedTest
    @CsvSource({"0, true", "29, true", "31, false", "-2, false", "800, false"})
    @DisplayName("a time of taking counts where the file was written within a month of it, as no transfer takes longer")
    void clockThatIsYearsSlow(int days, boolean counts) throws Exception {
        String photo = photo("DCIM/IMG_0003_face-front-smile.JPG");
        Instant taken = Samples.photo(ONE_SITTING).taken().toInstant();
        assertThat(moments.of(photo, taken.plus(Duration.ofDays(days))).isPresent())
                .isEqualTo(counts);
    }

    @Test
    @DisplayName("a round that breaks off after the late card was recorded is taken up with the photographs beside it")
    void brokenOff() throws Exception {
        card("DCIM/IMG_0001.JPG", ZOE, false);
        photo("DCIM/IMG_0003_face-front-smile.JPG");
        decide();
        studiesAway = true;
        String late = card("DCIM/IMG_0002.JPG", HANAKO, false);
        decide();
        assertThat(shown(late).state()).as("recorded").isEqualTo(PhotoState.SET_ASIDE);
        assertThat(claimed()).isEmpty();
        studiesAway = false;
        now = now.plus(Duration.ofMinutes(6));
        decide();
        assertThat(claimed()).containsExactly("PG-0005");
    }

    @Test
    @DisplayName(
            "what a late card makes doubtful of a filed photograph stays so until a person answers, whatever comes after")
    void unanswered() throws Exception {
        card("DCIM/IMG_0001.JPG", ZOE, false);
        String photo = photo("DCIM/IMG_0003_face-front-smile.JPG");
        decide();
        file();
        card("DCIM/IMG_0002.JPG", HANAKO, false);
        decide();
        assertThat(shown(photo).reason()).contains("filed-under-another-patient");
        photo("copies/IMG_0003_teeth-front-occlusion.JPG");
        decide();
        assertThat(shown(photo).reason()).as("the patient first").contains("filed-under-another-patient");
        card("DCIM/IMG_0002_again.JPG", ZOE, true);
        decide();
        assertThat(shown(photo).reason())
                .as("nobody answered, and that card says nothing")
                .contains("filed-and-in-doubt");
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    @DisplayName(
            "who asks to try again says nothing of whose it is: a late card makes it doubtful as ever once it is filed")
    void triedAgain(boolean beforeItIsFiled) throws Exception {
        card("DCIM/IMG_0001.JPG", ZOE, false);
        String photo = photo("DCIM/IMG_0003_face-front-smile.JPG");
        decide();
        Rulings.Said retry = new Rulings.Said("retry", "yes", Optional.empty(), NOON.plusSeconds(60));
        if (beforeItIsFiled) {
            keeping.outbox().rulings().retry(photo, retry);
            decide();
            file();
        } else {
            file();
            keeping.outbox().consignments().attention(photo, "commitment-refused", "Refused.");
            keeping.outbox().rulings().retry(photo, retry);
        }
        card("DCIM/IMG_0002.JPG", HANAKO, false);
        decide();
        assertThat(shown(photo).reason()).contains("filed-under-another-patient");
        keeping.outbox().rulings().retry(photo, retry);
        decide();
        assertThat(shown(photo).reason()).as("nor is it an answer to that").contains("filed-under-another-patient");
    }

    /** The one photograph that is decided goes to the archive. */
    private void file() throws Exception {
        keeping.outbox().nodes().alive("node", Duration.ofDays(3));
        Consignments.Consignment one = keeping.outbox()
                .consignments()
                .claim("node", keeping.originals().place(), 9)
                .get(0);
        keeping.outbox()
                .consignments()
                .made(
                        one,
                        List.of(new Consignments.Made(
                                "2.25.1", "1.2.840.10008.5.1.4.1.1.77.1.4", "d", 9, Optional.empty(), List.of())));
        assertThat(keeping.outbox().consignments().sending(one.photo(), one.revision(), "2.25.1", "node"))
                .isTrue();
        keeping.outbox().consignments().stored(one.photo(), "2.25.1", 0, "");
        keeping.outbox().consignments().release(one.photo(), "node");
    }

    @Test
    @DisplayName("what a killed process of this home left is taken up at once, and what a living one is at is not")
    void killed() throws Exception {
        card("DCIM/IMG_0001.JPG", ZOE, false);
        String photo = photo("DCIM/IMG_0003_face-front-smile.JPG");
        String place = keeping.originals().place();
        long parent = ProcessHandle.current().parent().orElseThrow().pid();
        Rounds.Round living = new Rounds.Round("card", place, keeping.node() + "/" + parent);
        keeping.outbox().rounds().begin(living);
        decide();
        assertThat(desk.leftToAnother()).isTrue();
        assertThat(keeping.outbox().overview().decision(photo)).isEmpty();
        keeping.outbox().rounds().end(living);
        Process ended = new ProcessBuilder("true").start();
        assertThat(ended.waitFor()).isZero();
        keeping.outbox().rounds().begin(new Rounds.Round("card", place, keeping.node() + "/" + ended.pid()));
        decide();
        assertThat(keeping.outbox().overview().decision(photo)).isPresent();
        assertThat(claimed()).containsExactly("PG-0001");
    }

    @Test
    @DisplayName("one original that is lost stops itself, and not what lies beside it")
    void lostOriginal() throws Exception {
        card("DCIM/IMG_0001.JPG", ZOE, false);
        String photo = photo("DCIM/IMG_0003_face-front-smile.JPG");
        decide();
        Files.delete(keeping.originals().path(photo));
        byte[] picture = Samples.jpeg(Samples.photo(ONE_SITTING), PhotoSize.THUMBNAIL);
        byte[] other = new byte[picture.length + 6];
        System.arraycopy(picture, 0, other, 0, 2);
        System.arraycopy(new byte[] {(byte) 0xFF, (byte) 0xFE, 0, 4, 'o', 'n'}, 0, other, 2, 6);
        System.arraycopy(picture, 2, other, 8, picture.length - 2);
        String another = take("DCIM/IMG_0004_face-front-smile.JPG", other);
        decide();
        assertThat(shown(photo).reason()).contains("unreadable");
        assertThat(shown(another).state()).isEqualTo(PhotoState.WAITING);
        assertThat(desk.troubles()).isEmpty();
        assertThat(claimed()).hasSize(1);
    }

    @Test
    @DisplayName("a person's word about a mirrored card, while the archive is away, counts once it is back")
    void wordAboutACard() throws Exception {
        String card = card("IMG_0001.JPG", ZOE, true);
        String photo = photo("IMG_0002_face-front-smile.JPG");
        decide();
        assertThat(shown(photo).reason()).contains("card-mirrored");
        away = true;
        keeping.outbox().rulings().say(card, List.of(new Rulings.Said("patient", "PG-0001", Optional.empty(), NOON)));
        decide();
        away = false;
        now = now.plus(Duration.ofMinutes(6));
        decide();
        assertThat(shown(photo).reason()).isEmpty();
        assertThat(claimed()).containsExactly("PG-0001");
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    @DisplayName("whose it is stays a question until a person answers, though the card is gone whose folder raised it")
    void doubtStays(boolean anotherCard) throws Exception {
        String photo = photo("by/PG-0001/IMG_0003_face-front-smile.JPG");
        source = "stick";
        String other = "by/PG-0005/IMG_0003_face-front-smile.JPG";
        photo(other);
        decide();
        assertThat(shown(photo).reason()).contains("evidence-disagrees");
        if (anotherCard) {
            take(other, CardPictures.like(ONE_SITTING, HANAKO, false));
        } else {
            keeping.outbox().arrivals().gone("stick", List.of(other));
        }
        source = "card";
        card("by/PG-0001/IMG_0009.JPG", ZOE, false);
        decide();
        assertThat(shown(photo).reason()).as("nobody answered").contains("evidence-disagrees");
        assertThat(claimed()).isEmpty();
        keeping.outbox().rulings().say(photo, List.of(new Rulings.Said("patient", "PG-0001", Optional.empty(), NOON)));
        decide();
        assertThat(shown(photo).reason()).isEmpty();
        assertThat(claimed()).containsExactly("PG-0001");
    }

    @Test
    @DisplayName("what was doubtful for a copy under another name is not, once that copy is called otherwise")
    void doubtGoesAway() throws Exception {
        card("IMG_0001.JPG", ZOE, false);
        String photo = photo("IMG_0002_face-front-smile.JPG");
        decide();
        assertThat(shown(photo).state()).isEqualTo(PhotoState.WAITING);
        photo("copies/IMG_0002_teeth-front-occlusion.JPG");
        decide();
        assertThat(shown(photo).reason()).contains("several-views-named");
        int told = keeping.outbox().overview().history(photo).size();
        keeping.outbox().arrivals().gone("card", List.of("copies/IMG_0002_teeth-front-occlusion.JPG"));
        photo("copies/IMG_0002_face-front-smile.JPG");
        decide();
        assertThat(shown(photo).reason()).isEmpty();
        assertThat(claimed()).containsExactly("PG-0001");
        assertThat(keeping.outbox().overview().history(photo)).hasSize(told + 2);
    }
}
