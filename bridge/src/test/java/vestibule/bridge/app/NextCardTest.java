package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("The next patient's card, where its frame is not whole, is lost, or came by another way")
class NextCardTest {

    private static final Clock CLOCK = PracticeFolder.clockOf(Instant.parse("2026-11-25T18:00:00Z"));
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String SAMPLE = "hanako-face-front-smile";
    private static final String FIRST = "IMG_0002_teeth-front-occlusion.JPG";
    private static final String NEXT = "IMG_0004_teeth-front-occlusion.JPG";
    private static final Patient ZOE = PracticeFolder.ZOE;
    private static final Patient HANAKO = PracticeFolder.HANAKO;

    @TempDir
    Path folder;

    @BeforeEach
    void open() throws Exception {
        settings("");
    }

    private void settings(String patients) throws IOException {
        PracticeFolder practice = new PracticeFolder(folder);
        practice.settings("""
                [home]
                reserve = "1 MB"
                [intake]
                settle = "1 ms"
                [practice]
                zone = "UTC"
                [patients]
                day-list = '%s'
                ask-archive = false
                %s
                """.formatted(practice.dayList(), patients));
    }

    /** With that time of day in the camera's notes, in the place of the one that was there. */
    private static byte[] taken(byte[] bytes, String time) {
        return CardPictures.taken(bytes, LocalDateTime.parse("2026-11-25T" + time));
    }

    private static byte[] card(Patient who, String time) throws IOException {
        return taken(CardPictures.like(SAMPLE, who, false), time);
    }

    private static byte[] photo(String time) throws IOException {
        return taken(Samples.jpeg(Samples.photo(SAMPLE), PhotoSize.THUMBNAIL), time);
    }

    private void put(String name, byte[] bytes, String time) throws IOException {
        Path file = folder.resolve(name);
        Files.createDirectories(file.resolveSibling(""));
        Files.write(file, bytes);
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-11-25T" + time + ":00Z")));
    }

    /** Zoë's card and a photograph of her. */
    private void zoe(String source) throws IOException {
        put(source + "/IMG_0001.JPG", card(ZOE, "09:00"), "09:00");
        put(source + "/" + FIRST, photo("09:01"), "09:01");
    }

    private Ran intake(String source) {
        return new PracticeFolder(folder)
                .run(
                        new IntakeCommand(WORKSHOP, CLOCK, time -> new Bell().await(time)),
                        folder.resolve(source).toString());
    }

    private void settle(String... words) {
        assertThat(new PracticeFolder(folder)
                        .run(new SettleCommand(WORKSHOP, CLOCK), words)
                        .exit())
                .isEqualTo(Exit.FINE.code());
    }

    /** The patient that a photograph is decided to be of, or why a person has to say. */
    private String whose(String name) throws Exception {
        Settings settings = Settings.read(folder.resolve("vestibule.toml"));
        try (Keeping keeping = Keeping.openExisting(folder.resolve("home"), settings, CLOCK)) {
            Overview overview = keeping.outbox().overview();
            Overview.Photograph photograph = overview.named(name).get(0);
            Optional<String> decision = overview.decision(photograph.photo());
            return photograph.reason().isPresent() || decision.isEmpty()
                    ? photograph.reason().orElse("undecided")
                    : DecisionText.read(decision.get()).patient().orElseThrow().id();
        }
    }

    @Test
    @DisplayName(
            "cut short, it may be a card all the same: what follows waits, and is the next patient's once it is whole")
    void cutShort() throws Exception {
        zoe("card");
        byte[] next = card(HANAKO, "09:05");
        put("card/IMG_0003.JPG", Arrays.copyOf(next, next.length / 2), "09:05");
        put("card/" + NEXT, photo("09:06"), "09:06");
        assertThat(intake("card").exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(whose(FIRST)).isEqualTo("PG-0001");
        assertThat(whose(NEXT)).isEqualTo("card-unreadable");
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            new PracticeFolder(folder).serve(WORKSHOP, CLOCK, archive.port());
        }
        put("card/IMG_0003.JPG", next, "09:05");
        assertThat(intake("card").exit()).isEqualTo(Exit.FINE.code());
        assertThat(whose(NEXT)).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName(
            "a file that was not whole and is gone answers nothing, but a transfer's name for what is whole now does")
    void gone() throws Exception {
        zoe("card");
        byte[] next = card(HANAKO, "09:05");
        put("card/IMG_0003.JPG", Arrays.copyOf(next, next.length / 2), "09:05");
        put("card/IMG_0005.JPG.part", Arrays.copyOf(next, next.length / 3), "09:07");
        put("card/" + NEXT, photo("09:06"), "09:06");
        put("card/IMG_0006_teeth-front-occlusion.JPG", photo("09:08"), "09:08");
        intake("card");
        Files.delete(folder.resolve("card/IMG_0003.JPG"));
        Files.delete(folder.resolve("card/IMG_0005.JPG.part"));
        put("card/IMG_0005.JPG", card(ZOE, "09:07"), "09:07");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("card-unreadable");
        assertThat(whose("IMG_0006_teeth-front-occlusion.JPG")).isEqualTo("PG-0001");
        settle(NEXT, "--patient", "PG-0005");
        assertThat(whose(NEXT)).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName(
            "our copy of its frame is lost: nothing after it goes to the patient before, until a person says whose it is")
    void lost() throws Exception {
        zoe("card");
        byte[] next = card(HANAKO, "09:05");
        put("card/IMG_0003.JPG", next, "09:05");
        intake("card");
        String hash =
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(next));
        Files.delete(folder.resolve("home/originals/" + hash.substring(0, 2) + "/" + hash + ".jpg"));
        Files.delete(folder.resolve("card/IMG_0003.JPG"));
        put("card/" + NEXT, photo("09:06"), "09:06");
        intake("card");
        assertThat(whose(FIRST)).isEqualTo("PG-0001");
        assertThat(whose(NEXT)).isEqualTo("card-unreadable");
        new PracticeFolder(folder).run(new SettleCommand(WORKSHOP, CLOCK), "IMG_0003.JPG", "--patient", "PG-0005");
        assertThat(whose(NEXT)).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName("where folders are named for patients and nobody photographs cards, a damaged file stops nothing")
    void withoutCards() throws Exception {
        settings("names = [\"{id}/**\"]");
        put("card/PG-0001/IMG_0001.JPG", Arrays.copyOf(photo("09:00"), 4_000), "09:00");
        put("card/PG-0001/" + FIRST, photo("09:01"), "09:01");
        assertThat(intake("card").exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(whose(FIRST)).isEqualTo("PG-0001");
    }

    @Test
    @DisplayName(
            "its bytes came from another source before: it says here all the same whose the photographs after it are")
    void knownFromElsewhere() throws Exception {
        byte[] next = card(HANAKO, "09:05");
        put("wireless/IMG_0003.JPG", next, "09:05");
        intake("wireless");
        zoe("card");
        put("card/IMG_0003.JPG", next, "09:05");
        put("card/" + NEXT, photo("09:06"), "09:06");
        intake("card");
        assertThat(whose(FIRST)).isEqualTo("PG-0001");
        assertThat(whose(NEXT)).isEqualTo("PG-0005");
        settle("IMG_0003.JPG", "--patient", "PG-0001");
        assertThat(intake("card").exit()).isEqualTo(Exit.FINE.code());
        assertThat(whose(NEXT)).as("a person's word on the card").isEqualTo("PG-0001");
    }

    @Test
    @DisplayName(
            "it turns up among photographs that were decided: they are decided again, also once it lies there no more")
    void turnsUpLate() throws Exception {
        byte[] next = card(HANAKO, "09:05");
        put("wireless/IMG_0003.JPG", next, "09:05");
        intake("wireless");
        zoe("card");
        put("card/" + NEXT, photo("09:06"), "09:06");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("PG-0001");
        put("card/IMG_0003.JPG", next, "09:05");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("PG-0005");
        Files.delete(folder.resolve("card/IMG_0003.JPG"));
        put("card/IMG_0005_teeth-front-occlusion.JPG", photo("09:07"), "09:07");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("PG-0005");
        assertThat(whose("IMG_0005_teeth-front-occlusion.JPG")).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName(
            "a wireless card lost it: the camera's card, read later, says that what came by air is the next patient's, or stops it")
    void lostByAir() throws Exception {
        zoe("wireless");
        put("wireless/" + NEXT, photo("09:06"), "09:06");
        intake("wireless");
        assertThat(whose(NEXT)).isEqualTo("PG-0001");
        zoe("card");
        put("card/IMG_0003.JPG", card(HANAKO, "09:05"), "09:05");
        put("card/" + NEXT, photo("09:06"), "09:06");
        assertThat(intake("card").exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(whose(FIRST)).isEqualTo("PG-0001");
        assertThat(whose(NEXT)).isEqualTo("evidence-disagrees");
    }

    @Test
    @DisplayName("what came by air is in the archive already when the camera's card names another: a person is asked")
    void filedByAir() throws Exception {
        zoe("wireless");
        put("wireless/" + NEXT, photo("09:06"), "09:06");
        intake("wireless");
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            new PracticeFolder(folder).serve(WORKSHOP, CLOCK, archive.port());
        }
        zoe("card");
        put("card/IMG_0003.JPG", card(HANAKO, "09:05"), "09:05");
        put("card/" + NEXT, photo("09:06"), "09:06");
        intake("card");
        assertThat(whose(FIRST)).isEqualTo("PG-0001");
        assertThat(whose(NEXT)).isEqualTo("filed-under-another-patient");
    }

    @Test
    @DisplayName("what is at the edge of the hours looked at is not decided without the card that lies beyond them")
    void edgeOfTheHours() throws Exception {
        settings("names = [\"{id}/**\"]");
        put("card/IMG_0001.JPG", card(HANAKO, "08:00"), "08:00");
        put("card/PG-0001/" + NEXT, photo("08:05"), "08:05");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("evidence-disagrees");
        put("card/PG-0001/IMG_0009_teeth-front-occlusion.JPG", photo("20:03"), "20:03");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("evidence-disagrees");
    }

    @Test
    @DisplayName("nor is what another source said of it forgotten there")
    void edgeOfTheHoursElsewhere() throws Exception {
        settings("names = [\"{id}/**\"]");
        put("wireless/PG-0001/" + NEXT, photo("08:05"), "08:05");
        intake("wireless");
        assertThat(whose(NEXT)).isEqualTo("PG-0001");
        put("card/IMG_0001.JPG", card(HANAKO, "08:00"), "08:00");
        put("card/" + NEXT, photo("08:05"), "08:05");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("evidence-disagrees");
        put("card/IMG_0009_teeth-front-occlusion.JPG", photo("20:03"), "20:03");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("evidence-disagrees");
    }

    /** Zoë's card, two photographs after it, and both in the archive. */
    private void filed() throws Exception {
        zoe("card");
        put("card/" + NEXT, photo("09:06"), "09:06");
        intake("card");
        deliver();
        assertThat(whose(NEXT)).isEqualTo("PG-0001");
        assertThat(status()).contains("may be cleared");
    }

    private void deliver() throws IOException {
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            new PracticeFolder(folder).serve(WORKSHOP, CLOCK, archive.port());
        }
    }

    private String status() {
        return new PracticeFolder(folder).run(new StatusCommand(CLOCK)).out();
    }

    @Test
    @DisplayName(
            "it comes late, by a clock that was set back in between: what is filed and no longer clear asks, until a person says who it is")
    void lateAndUnclear() throws Exception {
        filed();
        put("card/IMG_0003.JPG", card(HANAKO, "09:09"), "09:09");
        Ran late = intake("card");
        assertThat(late.exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(whose(NEXT)).isEqualTo("filed-and-in-doubt");
        assertThat(whose(FIRST)).as("before either card of the two").isEqualTo("PG-0001");
        assertThat(status()).contains("must not be cleared").doesNotContain("may be cleared");
        new PracticeFolder(folder).run(new SettleCommand(WORKSHOP, CLOCK), NEXT, "--stage", "before");
        assertThat(whose(NEXT)).as("a word on another matter").isEqualTo("filed-and-in-doubt");
        settle(NEXT, "--patient", "PG-0001");
        deliver();
        assertThat(status()).contains("may be cleared");
        put("card/IMG_0010_teeth-front-occlusion.JPG", photo("09:10"), "09:10");
        intake("card");
        assertThat(whose(NEXT)).as("answered for good").isEqualTo("PG-0001");
    }

    @Test
    @DisplayName("it comes late, and is somebody else's by a person's word: the same goes for what is filed by a card")
    void lateAndUnclearAfterAWord() throws Exception {
        put("card/IMG_0001.JPG", taken(CardPictures.like(SAMPLE, ZOE, true), "09:00"), "09:00");
        put("card/" + NEXT, photo("09:06"), "09:06");
        intake("card");
        settle("IMG_0001.JPG", "--patient", "PG-0001");
        deliver();
        put("card/IMG_0009_teeth-front-occlusion.JPG", photo("09:08"), "09:08");
        assertThat(intake("card").exit()).as("the mirrored card was answered").isEqualTo(Exit.FINE.code());
        assertThat(whose(NEXT)).isEqualTo("PG-0001");
        put("card/IMG_0003.JPG", card(HANAKO, "09:09"), "09:09");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("filed-and-in-doubt");
    }

    @Test
    @DisplayName("it comes late and cut short: what is filed asks like what is not, until it is whole and agrees")
    void lateAndUnreadable() throws Exception {
        filed();
        byte[] next = card(HANAKO, "09:05");
        put("card/IMG_0003.JPG", Arrays.copyOf(next, next.length / 2), "09:05");
        put("card/IMG_0005_teeth-front-occlusion.JPG", photo("09:07"), "09:07");
        intake("card");
        assertThat(whose("IMG_0005_teeth-front-occlusion.JPG")).isEqualTo("card-unreadable");
        assertThat(whose(NEXT)).isEqualTo("filed-and-in-doubt");
        assertThat(whose(FIRST)).as("before it").isEqualTo("PG-0001");
        put("card/IMG_0003.JPG", card(ZOE, "09:05"), "09:05");
        intake("card");
        assertThat(whose(NEXT)).isEqualTo("PG-0001");
    }

    private boolean letGo(String name) throws Exception {
        Settings settings = Settings.read(folder.resolve("vestibule.toml"));
        try (Keeping keeping = Keeping.openExisting(folder.resolve("home"), settings, CLOCK)) {
            String photo = keeping.outbox().overview().named(name).get(0).photo();
            List<String> old = keeping.outbox()
                    .copies()
                    .committedBefore(
                            CLOCK.instant().plusSeconds(1), keeping.originals().place(), 9);
            boolean gone = keeping.outbox().copies().letGo(photo);
            assertThat(old.contains(photo)).isEqualTo(gone);
            return gone;
        }
    }

    @Test
    @DisplayName(
            "the patient held it and was filed: its copy is kept for ever, and any other's while something near waits for a person")
    void copies() throws Exception {
        zoe("card");
        put("card/IMG_0003.JPG", card(HANAKO, "09:05"), "09:05");
        put("card/IMG_0004.JPG", photo("09:06"), "09:06");
        intake("card");
        new PracticeFolder(folder)
                .run(new SettleCommand(WORKSHOP, CLOCK), "IMG_0003.JPG", "--view", "teeth-front-occlusion");
        deliver();
        assertThat(whose("IMG_0003.JPG")).isEqualTo("PG-0005");
        assertThat(whose("IMG_0004.JPG")).isEqualTo("view-not-said");
        assertThat(letGo("IMG_0003.JPG")).isFalse();
        assertThat(letGo(FIRST)).as("near what waits for a person").isFalse();
        settle("IMG_0004.JPG", "--view", "teeth-front-occlusion");
        assertThat(whose("IMG_0004.JPG")).isEqualTo("PG-0005");
        deliver();
        assertThat(letGo("IMG_0003.JPG")).isFalse();
        assertThat(letGo(FIRST)).isTrue();
        settle("IMG_0004.JPG", "--stage", "before");
        assertThat(whose("IMG_0004.JPG")).isEqualTo("PG-0005");
    }
}
