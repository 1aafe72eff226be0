package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.app.Deciding.Aside;
import vestibule.bridge.app.Deciding.Candidate;
import vestibule.bridge.app.Deciding.Decided;
import vestibule.bridge.app.Deciding.Doubtful;
import vestibule.bridge.app.Deciding.Photograph;
import vestibule.bridge.app.Deciding.Ruling;
import vestibule.bridge.app.Deciding.Statement;
import vestibule.bridge.patient.CardReader;
import vestibule.bridge.patient.Diary;
import vestibule.bridge.patient.Directory;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.PersonName;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Deciding a source")
class DeciderTest {

    private static final Instant TAKEN_IN = Instant.parse("2026-03-25T12:00:00Z");
    private static final Patient ZOE = new Patient(
            "PG-0001",
            Optional.of("PAINTED-GATE"),
            PersonName.parse("Exempel^Zoë^Åsa").orElseThrow(),
            Optional.of(LocalDate.of(1987, 2, 28)),
            Optional.of("F"));
    private static final Patient HANAKO = new Patient(
            "PG-0005",
            Optional.of("PAINTED-GATE"),
            PersonName.parse("Mihon^Hanako").orElseThrow(),
            Optional.of(LocalDate.of(2000, 2, 29)),
            Optional.of("F"));

    @TempDir
    Path folder;

    private final List<Known> archive = new ArrayList<>();
    private final List<Candidate> source = new ArrayList<>();
    private final Remembered memory = new Remembered();
    private final List<Boolean> wholes = new ArrayList<>();

    private Candidate add(String name, byte[] bytes, Statement... words) throws Exception {
        Path file = Files.write(folder.resolve("photo-" + source.size()), bytes);
        String hash =
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        Candidate candidate = new Candidate(
                new Photograph(hash, name, List.of(), "card", TAKEN_IN, TAKEN_IN, List.of(words)),
                file,
                Optional.empty(),
                false);
        source.add(candidate);
        return candidate;
    }

    private Candidate photo(String name, String sample, Statement... words) throws Exception {
        return add(name, Samples.jpeg(Samples.photo(sample), PhotoSize.THUMBNAIL), words);
    }

    private Candidate card(String name, Patient patient, String like, boolean mirrored) throws Exception {
        return add(name, CardPictures.like(like, patient, mirrored));
    }

    private static Statement word(String about, String value) {
        return new Statement(about, value, Optional.of("an assistant"), TAKEN_IN.plusSeconds(60));
    }

    /** What is remembered, as the outbox remembers it. */
    private static final class Remembered implements Memory {
        private final Map<String, String> all = new HashMap<>();

        @Override
        public Map<String, String> recall(Collection<String> photos) {
            Map<String, String> known = new HashMap<>(all);
            known.keySet().retainAll(photos);
            return known;
        }

        @Override
        public void keep(Map<String, String> readings) {
            all.putAll(readings);
        }
    }

    private void known(Patient patient) {
        archive.add(new Known(patient, Evidence.Source.ARCHIVE, Optional.empty()));
    }

    private Settings settings(String text) throws Exception {
        return Settings.read(Files.writeString(folder.resolve("settings.toml"), text));
    }

    private Map<String, Ruling> decide(String text) throws Exception {
        return decided(text).rulings();
    }

    private Recorded decided(String text) throws Exception {
        Directory directory = new Directory() {
            @Override
            public List<Known> withId(String id) {
                return archive;
            }

            @Override
            public List<Known> named(PersonName name, LocalDate birthDate) {
                return archive;
            }
        };
        Directories directories =
                days -> new Directories.Opened(archive.isEmpty() ? List.of() : List.of(directory), Diary.EMPTY);
        Recorded recorded = new Recorded(source);
        decider(text, directories).decide(recorded);
        return recorded;
    }

    private Decider decider(String text, Directories directories) throws Exception {
        return new Decider(
                settings(text),
                directories,
                sitting -> {
                    wholes.add(sitting.whole());
                    return new SetViewing(rules()).look(sitting);
                },
                Optional.empty(),
                memory,
                Clock.fixed(TAKEN_IN, ZoneOffset.UTC));
    }

    private static ViewRules rules() {
        return ViewRules.of(Settings.NONE.views(), Settings.NONE.sets(), CodingProfile.DENTAL, Optional.empty());
    }

    private static DecisionText decided(Map<String, Ruling> rulings, Candidate candidate) throws Failure {
        Ruling ruling = rulings.get(candidate.photo());
        assertThat(ruling).isInstanceOf(Decided.class);
        return DecisionText.read(((Decided) Objects.requireNonNull(ruling)).decision());
    }

    private static void doubted(Map<String, Ruling> rulings, Candidate candidate, String reason) {
        assertThat(rulings.get(candidate.photo()))
                .isInstanceOfSatisfying(
                        Doubtful.class, doubt -> assertThat(doubt.reason()).isEqualTo(reason));
    }

    @Test
    @DisplayName("two patients on one card are told apart by their cards, and the cards are set aside")
    void twoPatients() throws Exception {
        known(ZOE);
        known(HANAKO);
        Candidate before = photo("DCIM/100/IMG_0000_face-front-smile.JPG", "nina-teeth-front-occlusion");
        Candidate zoeCard = card("DCIM/100/IMG_0001.JPG", ZOE, "zoe-face-front-smile", false);
        Candidate zoe = photo("DCIM/100/IMG_0002_face-front-smile.JPG", "zoe-face-front-smile");
        Candidate hanakoCard = card("DCIM/100/IMG_0003.JPG", HANAKO, "hanako-face-front-smile", false);
        Candidate hanako = photo("DCIM/100/IMG_0004_face-front-smile.JPG", "hanako-face-front-smile");
        Map<String, Ruling> rulings = decide("");
        assertThat(rulings.get(zoeCard.photo())).isInstanceOf(Aside.class);
        assertThat(rulings.get(hanakoCard.photo())).isInstanceOf(Aside.class);
        assertThat(rulings.get(before.photo())).isInstanceOf(Doubtful.class);
        DecisionText first = decided(rulings, zoe);
        assertThat(first.patient()).contains(ZOE);
        assertThat(first.grounds()).extracting(Ground::kind).contains("patient-card", "archive");
        assertThat(decided(rulings, hanako).patient()).contains(HANAKO);
        Making making =
                new ObjectMaking(settings("").practice(), rules(), Clock.fixed(TAKEN_IN, ZoneOffset.UTC), folder);
        assertThat(making.make(zoe.original(), first.json(), Files.createDirectory(folder.resolve("made"))))
                .hasSize(1);
    }

    @Test
    @DisplayName("deciding again opens no picture: what was read once is remembered, and what nobody remembers is read")
    void remembers() throws Exception {
        known(ZOE);
        Candidate card = card("IMG_0001.JPG", ZOE, "zoe-face-front-smile", false);
        Candidate photo = photo("IMG_0002_face-front-smile.JPG", "zoe-face-front-smile");
        Map<String, Ruling> first = decide("");
        byte[] picture = Files.readAllBytes(card.original());
        Arrays.fill(picture, picture.length / 2, picture.length - 2, (byte) 0);
        Files.write(card.original(), picture);
        assertThat(decide("")).isEqualTo(first);
        memory.all.replaceAll((hash, text) -> text.replaceFirst("\"version\":[0-9]+", "\"version\":0"));
        // Half of the card is left to see, which stops what follows it
        doubted(decide(""), photo, "card-unreadable");
    }

    @Test
    @DisplayName("a mirrored card stops it and what follows; a person's word on the card frees them")
    void mirrored() throws Exception {
        known(ZOE);
        Candidate card = card("IMG_0001.JPG", ZOE, "zoe-face-front-smile", true);
        Candidate photo = photo("IMG_0002_face-front-smile.JPG", "zoe-face-front-smile");
        Map<String, Ruling> rulings = decide("");
        doubted(rulings, card, "card-mirrored");
        doubted(rulings, photo, "card-mirrored");
        source.set(0, saying(card, word("patient", "PG-0001")));
        rulings = decide("");
        assertThat(rulings.get(card.photo())).isInstanceOf(Aside.class);
        assertThat(decided(rulings, photo).patient()).contains(ZOE);
    }

    @Test
    @DisplayName(
            "a view said of a frame whose code could not be read means that it is no card, unless a patient is said too")
    void viewOfAFailedCard() throws Exception {
        known(ZOE);
        card("IMG_0001.JPG", ZOE, "zoe-face-front-smile", false);
        Candidate failed =
                add("IMG_0002.JPG", Samples.jpeg(Samples.photo("zoe-face-front-smile"), new PhotoSize(640, 480)));
        memory.all.put(failed.photo(), ReadingText.write(new CardReader.Unreadable()));
        Candidate photo = photo("IMG_0003_face-front-smile.JPG", "zoe-face-front-smile");
        doubted(decide(""), failed, "card-unreadable");
        doubted(decide(""), photo, "card-unreadable");
        source.set(1, saying(failed, word("view", "face-front-smile")));
        Map<String, Ruling> rulings = decide("");
        assertThat(decided(rulings, failed).patient()).contains(ZOE);
        assertThat(decided(rulings, photo).patient()).contains(ZOE);
        archive.set(0, new Known(HANAKO, Evidence.Source.ARCHIVE, Optional.empty()));
        source.set(1, saying(failed, word("view", "face-front-smile"), word("patient", "PG-0005")));
        rulings = decide("");
        assertThat(decided(rulings, failed).patient()).contains(HANAKO);
        assertThat(decided(rulings, photo).patient()).contains(HANAKO);
    }

    @Test
    @DisplayName("a view said of a mirrored card leaves what follows in doubt, and whose picture it is as well")
    void viewOfAMirroredCard() throws Exception {
        known(ZOE);
        Candidate card = card("IMG_0001.JPG", ZOE, "zoe-face-front-smile", true);
        Candidate photo = photo("IMG_0002_face-front-smile.JPG", "zoe-face-front-smile");
        source.set(0, saying(card, word("view", "face-front-smile")));
        Map<String, Ruling> rulings = decide("");
        doubted(rulings, card, "card-mirrored");
        doubted(rulings, photo, "card-mirrored");
    }

    private Candidate saying(Candidate candidate, Deciding.Statement... words) {
        return new Candidate(
                seen(candidate, candidate.name(), TAKEN_IN, List.of(), words),
                candidate.original(),
                Optional.empty(),
                false);
    }

    private static Photograph seen(
            Candidate candidate, String name, Instant moment, List<String> otherNames, Statement... words) {
        return new Photograph(candidate.photo(), name, otherNames, candidate.source(), moment, moment, List.of(words));
    }

    @Test
    @DisplayName("what a person discarded stays so whenever its card is decided again, until a person says more of it")
    void discarded() throws Exception {
        known(ZOE);
        card("IMG_0001.JPG", ZOE, "zoe-face-front-smile", false);
        Candidate photo = photo("IMG_0002_face-front-smile.JPG", "zoe-face-front-smile");
        Candidate broken = photo("IMG_0003_face-front-smile.JPG", "zoe-face-front-rest-lips-closed");
        Files.write(broken.original(), new byte[] {1, 2, 3});
        assertThat(decided(decide(""), photo).patient()).contains(ZOE);
        source.set(1, saying(photo, word("view", "face-front-smile"), word("discard", "yes")));
        source.set(2, saying(broken, word("discard", "yes")));
        Map<String, Ruling> rulings = decide("");
        assertThat(rulings.get(photo.photo())).isInstanceOf(Aside.class);
        assertThat(rulings.get(broken.photo())).isInstanceOf(Aside.class);
        source.set(1, saying(photo, word("discard", "yes"), word("view", "face-front-smile")));
        assertThat(decided(decide(""), photo).patient()).contains(ZOE);
    }

    @Test
    @DisplayName("a folder's name is evidence; no sentence repeats it")
    void folderNames() throws Exception {
        Candidate right = photo("PG-0001_Exempel_Zoe_1987-02-28/a_face-front-smile.jpg", "zoe-face-front-smile");
        Candidate other = photo("elsewhere/Exempel/b_face-front-smile.jpg", "zoe-face-front-rest-lips-closed");
        Candidate noView = photo("PG-0001_Exempel_Zoe_1987-02-28/c.jpg", "zoe-teeth-front-occlusion");
        String names = "[patients]\nnames = ['{id}_{family}_{given}_{birth}/**']\n";
        Map<String, Ruling> rulings = decide(names);
        assertThat(decided(rulings, right).patient().orElseThrow().id()).isEqualTo("PG-0001");
        doubted(rulings, other, "no-patient");
        doubted(rulings, noView, "view-not-said");
        assertThat(rulings.values())
                .noneMatch(ruling ->
                        ruling instanceof Doubtful doubt && doubt.message().contains("Exempel"));
        known(new Patient(
                "PG-0001", Optional.empty(), PersonName.of("Vzorek", "Jan"), Optional.empty(), Optional.empty()));
        doubted(decide(names), right, "name-differs");
    }

    @Test
    @DisplayName("a patient who is proposed and accepted is a person's word, also once something else is accepted")
    void acceptedPatient() throws Exception {
        known(ZOE);
        Candidate photo = photo("Exempel_Zoë_1987-02-28/a_face-front-smile.jpg", "zoe-face-front-smile");
        String names = "[patients]\nnames = ['{family}_{given}_{birth}/**']\n";
        Map<String, Ruling> rulings = decide(names);
        doubted(rulings, photo, "no-patient-id");
        String proposal = ((Doubtful) Objects.requireNonNull(rulings.get(photo.photo())))
                .proposal()
                .orElseThrow();
        source.set(0, saying(photo, word("accept", proposal)));
        DecisionText decided = decided(decide(names), photo);
        assertThat(decided.patient()).contains(ZOE);
        source.set(0, saying(photo, word("accept", proposal), word("accept", decided.json())));
        assertThat(decided(decide(names), photo).patient()).contains(ZOE);
        source.set(0, saying(photo, word("accept", decided.json())));
        doubted(decide(names), photo, "no-patient-id");
    }

    @Test
    @DisplayName("clocks: what was put right by settings counts, and a future or a first of January stops")
    void clocks() throws Exception {
        known(ZOE);
        Candidate photo = photo("IMG_0002_face-front-smile.JPG", "zoe-face-front-smile", word("stage", "start"));
        source.set(
                0,
                new Candidate(
                        seen(photo, photo.name(), Instant.parse("2026-01-01T00:00:00Z"), List.of()),
                        photo.original(),
                        Optional.empty(),
                        false));
        String text = "[patients]\nnames = ['IMG_*_*']\ncamera-field = 'artist'\n";
        assertThatThrownBy(() -> settings(text)).hasMessageContaining("patients.names");
        String folders = "[patients]\nnames = ['**IMG_{id}_*']\n";
        doubted(decide(folders), photo, "from-the-future");
    }

    @Test
    @DisplayName("the same bytes filed under another patient stop; filed under the same one there is nothing to say")
    void filed() throws Exception {
        known(ZOE);
        known(HANAKO);
        Candidate zoe = photo("PG-0001/a_face-front-smile.jpg", "zoe-face-front-smile");
        String names = "[patients]\nnames = ['{id}/**']\n";
        String decision = decided(decide(names), zoe).json();
        source.set(0, filed(zoe, "PG-0001/a_face-front-smile.jpg", decision));
        assertThat(decide(names)).isEmpty();
        source.set(0, filed(zoe, "PG-0005/a_face-front-smile.jpg", decision));
        doubted(decide(names), zoe, "filed-under-another-patient");
        source.set(0, filed(zoe, "PG-0001/a_face-front-smile.jpg", decision, "PG-0001/again/b_face-front-smile.jpg"));
        assertThat(decide(names)).isEmpty();
        source.set(0, filed(zoe, "PG-0001/a_face-front-smile.jpg", decision, "PG-0005/b_face-front-smile.jpg"));
        doubted(decide(names), zoe, "filed-under-another-patient");
    }

    @Test
    @DisplayName("the same bytes in the folders of two people stop before anything of them is filed")
    void sameBytesTwice() throws Exception {
        known(ZOE);
        known(HANAKO);
        Candidate zoe = photo("PG-0001/a_face-front-smile.jpg", "zoe-face-front-smile");
        source.set(
                0,
                new Candidate(
                        seen(zoe, zoe.name(), TAKEN_IN, List.of("PG-0005/a_face-front-smile.jpg")),
                        zoe.original(),
                        Optional.empty(),
                        false));
        doubted(decide("[patients]\nnames = ['{id}/**']\n"), zoe, "evidence-disagrees");
    }

    private static Candidate filed(Candidate candidate, String name, String decision, String... otherNames) {
        return new Candidate(
                seen(candidate, name, TAKEN_IN, List.of(otherNames)),
                candidate.original(),
                Optional.of(decision),
                true);
    }

    @Test
    @DisplayName("an archive that is away puts everything off; nothing is decided without it")
    void away() throws Exception {
        card("IMG_0001.JPG", ZOE, "zoe-face-front-smile", false);
        photo("IMG_0002_face-front-smile.JPG", "zoe-face-front-smile");
        Directory away = new Directory() {
            @Override
            public List<Known> withId(String id) throws IOException {
                throw new IOException("not there");
            }

            @Override
            public List<Known> named(PersonName name, LocalDate birthDate) throws IOException {
                throw new IOException("not there");
            }
        };
        Decider decider = decider("", days -> new Directories.Opened(List.of(away), Diary.EMPTY));
        Recorded recorded = new Recorded(source);
        assertThatThrownBy(() -> decider.decide(recorded)).isInstanceOf(IOException.class);
        assertThat(recorded.rulings()).isEmpty();
    }

    @Test
    @DisplayName("what is no photograph is said so, and does not stop the others")
    void unreadable() throws Exception {
        Candidate broken = add("IMG_0001.JPG", new byte[] {1, 2, 3});
        Candidate set = photo("IMG_0002.JPG", "zoe-face-front-smile", word("not-a-photograph", ""));
        Map<String, Ruling> rulings = decide("");
        doubted(rulings, broken, "unreadable");
        assertThat(rulings.get(set.photo())).isInstanceOf(Aside.class);
    }

    @Test
    @DisplayName(
            "a source of any size is read in full a thousand photographs at a time, and every one of them is decided once")
    void anySize() throws Exception {
        known(ZOE);
        Candidate first = photo("PG-0001/a_face-front-smile.jpg", "zoe-face-front-smile");
        source.clear();
        int photographs = 2 * Portions.MOST + 1;
        for (int i = 0; i < photographs; i++) {
            String hash = "%064x".formatted(i);
            memory.all.put(hash, ReadingText.write(new CardReader.Nothing()));
            Photograph photograph = new Photograph(
                    hash,
                    "PG-0001/%05d_face-front-smile.jpg".formatted(i),
                    List.of(),
                    "card",
                    TAKEN_IN,
                    TAKEN_IN,
                    List.of());
            source.add(new Candidate(photograph, first.original(), Optional.empty(), false));
        }
        Recorded recorded = decided("[patients]\nnames = ['{id}/**']\n");
        assertThat(recorded.portions()).containsExactly(Portions.MOST, Portions.MOST, 1);
        assertThat(wholes).containsExactly(false, false, false);
        assertThat(recorded.rulings()).hasSize(photographs);
        for (Candidate candidate : source) {
            assertThat(decided(recorded.rulings(), candidate).patient()).contains(ZOE);
        }
    }
}
