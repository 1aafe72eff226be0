package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;

@DisplayName("The next patient's card, where its frame is not whole, is lost, or came by another way")
class NextCardTest {

    private static final String SAMPLE = "hanako-face-front-smile";
    private static final String FIRST = "IMG_0002_teeth-front-occlusion.JPG";
    private static final String NEXT = "IMG_0004_teeth-front-occlusion.JPG";
    private static final Patient ZOE = PracticeFolder.ZOE;
    private static final Patient HANAKO = PracticeFolder.HANAKO;

    @TempDir
    Path folder;

    private CardFolder reader;

    @BeforeEach
    void open() throws IOException {
        reader = CardFolder.in(folder, "");
    }

    /** Zoë's card and a photograph of her. */
    private void zoe(String source) throws IOException {
        reader.put(source + "/IMG_0001.JPG", CardFolder.card(ZOE, "09:00"), "09:00");
        reader.put(source + "/" + FIRST, CardFolder.photo("09:01"), "09:01");
    }

    @Test
    @DisplayName("not noticed as a card, a person's word that it is one, and whose, counts for what follows")
    void notNoticed() throws Exception {
        zoe("card");
        reader.put("card/IMG_0003.JPG", CardFolder.photo("09:05"), "09:05");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
        reader.settle("IMG_0003.JPG", "--patient", "PG-0005", "--not-a-photograph");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
    }

    @Test
    @DisplayName(
            "cut short, it may be a card all the same: what follows waits, and is the next patient's once it is whole")
    void cutShort() throws Exception {
        zoe("card");
        byte[] next = CardFolder.card(HANAKO, "09:05");
        reader.put("card/IMG_0003.JPG", Arrays.copyOf(next, next.length / 2), "09:05");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        assertThat(reader.intake("card").exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
        assertThat(reader.whose(NEXT)).isEqualTo("card-unreadable");
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            new PracticeFolder(folder).serve(CardFolder.WORKSHOP, CardFolder.CLOCK, archive.port());
        }
        reader.put("card/IMG_0003.JPG", next, "09:05");
        assertThat(reader.intake("card").exit()).isEqualTo(Exit.FINE.code());
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName(
            "a file that was not whole and is gone answers nothing, but a transfer's name for what is whole now does")
    void gone() throws Exception {
        zoe("card");
        byte[] next = CardFolder.card(HANAKO, "09:05");
        reader.put("card/IMG_0003.JPG", Arrays.copyOf(next, next.length / 2), "09:05");
        reader.put("card/IMG_0005.JPG.part", Arrays.copyOf(next, next.length / 3), "09:07");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.put("card/IMG_0006_teeth-front-occlusion.JPG", CardFolder.photo("09:08"), "09:08");
        reader.intake("card");
        Files.delete(folder.resolve("card/IMG_0003.JPG"));
        Files.delete(folder.resolve("card/IMG_0005.JPG.part"));
        reader.put("card/IMG_0005.JPG", CardFolder.card(ZOE, "09:07"), "09:07");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("card-unreadable");
        assertThat(reader.whose("IMG_0006_teeth-front-occlusion.JPG")).isEqualTo("PG-0001");
        reader.settle(NEXT, "--patient", "PG-0005");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName(
            "our copy of its frame is lost: nothing after it goes to the patient before, until a person says whose it is")
    void lost() throws Exception {
        zoe("card");
        byte[] next = CardFolder.card(HANAKO, "09:05");
        reader.put("card/IMG_0003.JPG", next, "09:05");
        reader.intake("card");
        String hash =
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(next));
        Files.delete(folder.resolve("home/originals/" + hash.substring(0, 2) + "/" + hash + ".jpg"));
        Files.delete(folder.resolve("card/IMG_0003.JPG"));
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
        assertThat(reader.whose(NEXT)).isEqualTo("card-unreadable");
        new PracticeFolder(folder)
                .run(new SettleCommand(CardFolder.WORKSHOP, CardFolder.CLOCK), "IMG_0003.JPG", "--patient", "PG-0005");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName("where folders are named for patients and nobody photographs cards, a damaged file stops nothing")
    void withoutCards() throws Exception {
        reader = CardFolder.in(folder, "names = [\"{id}/**\"]");
        reader.put("card/PG-0001/IMG_0001.JPG", Arrays.copyOf(CardFolder.photo("09:00"), 4_000), "09:00");
        reader.put("card/PG-0001/" + FIRST, CardFolder.photo("09:01"), "09:01");
        assertThat(reader.intake("card").exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
    }

    @Test
    @DisplayName(
            "its bytes came from another source before: it says here all the same whose the photographs after it are")
    void knownFromElsewhere() throws Exception {
        byte[] next = CardFolder.card(HANAKO, "09:05");
        reader.put("wireless/IMG_0003.JPG", next, "09:05");
        reader.intake("wireless");
        zoe("card");
        reader.put("card/IMG_0003.JPG", next, "09:05");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
        reader.settle("IMG_0003.JPG", "--patient", "PG-0001");
        assertThat(reader.intake("card").exit()).isEqualTo(Exit.FINE.code());
        assertThat(reader.whose(NEXT)).as("a person's word on the card").isEqualTo("PG-0001");
    }

    @Test
    @DisplayName(
            "it turns up among photographs that were decided: they are decided again, also once it lies there no more")
    void turnsUpLate() throws Exception {
        byte[] next = CardFolder.card(HANAKO, "09:05");
        reader.put("wireless/IMG_0003.JPG", next, "09:05");
        reader.intake("wireless");
        zoe("card");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
        reader.put("card/IMG_0003.JPG", next, "09:05");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
        Files.delete(folder.resolve("card/IMG_0003.JPG"));
        reader.put("card/IMG_0005_teeth-front-occlusion.JPG", CardFolder.photo("09:07"), "09:07");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0005");
        assertThat(reader.whose("IMG_0005_teeth-front-occlusion.JPG")).isEqualTo("PG-0005");
    }

    @Test
    @DisplayName(
            "a wireless card lost it: the camera's card, read later, says that what came by air is the next patient's, or stops it")
    void lostByAir() throws Exception {
        zoe("wireless");
        reader.put("wireless/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("wireless");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
        zoe("card");
        reader.put("card/IMG_0003.JPG", CardFolder.card(HANAKO, "09:05"), "09:05");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        assertThat(reader.intake("card").exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
        assertThat(reader.whose(NEXT)).isEqualTo("evidence-disagrees");
    }

    @Test
    @DisplayName("what came by air is in the archive already when the camera's card names another: a person is asked")
    void filedByAir() throws Exception {
        zoe("wireless");
        reader.put("wireless/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("wireless");
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            new PracticeFolder(folder).serve(CardFolder.WORKSHOP, CardFolder.CLOCK, archive.port());
        }
        zoe("card");
        reader.put("card/IMG_0003.JPG", CardFolder.card(HANAKO, "09:05"), "09:05");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        assertThat(reader.whose(FIRST)).isEqualTo("PG-0001");
        assertThat(reader.whose(NEXT)).isEqualTo("filed-under-another-patient");
    }

    @Test
    @DisplayName("what is at the edge of the hours looked at is not decided without the card that lies beyond them")
    void edgeOfTheHours() throws Exception {
        reader = CardFolder.in(folder, "names = [\"{id}/**\"]");
        reader.put("card/IMG_0001.JPG", CardFolder.card(HANAKO, "08:00"), "08:00");
        reader.put("card/PG-0001/" + NEXT, CardFolder.photo("08:05"), "08:05");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("evidence-disagrees");
        reader.put("card/PG-0001/IMG_0009_teeth-front-occlusion.JPG", CardFolder.photo("20:03"), "20:03");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("evidence-disagrees");
    }

    @Test
    @DisplayName("nor is what another source said of it forgotten there")
    void edgeOfTheHoursElsewhere() throws Exception {
        reader = CardFolder.in(folder, "names = [\"{id}/**\"]");
        reader.put("wireless/PG-0001/" + NEXT, CardFolder.photo("08:05"), "08:05");
        reader.intake("wireless");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
        reader.put("card/IMG_0001.JPG", CardFolder.card(HANAKO, "08:00"), "08:00");
        reader.put("card/" + NEXT, CardFolder.photo("08:05"), "08:05");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("evidence-disagrees");
        reader.put("card/IMG_0009_teeth-front-occlusion.JPG", CardFolder.photo("20:03"), "20:03");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("evidence-disagrees");
    }

    /** Zoë's card, two photographs after it, and both in the archive. */
    private void filed() throws Exception {
        zoe("card");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        deliver();
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
        assertThat(status()).contains("may be cleared");
    }

    private void deliver() throws IOException {
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            new PracticeFolder(folder).serve(CardFolder.WORKSHOP, CardFolder.CLOCK, archive.port());
        }
    }

    private String status() {
        return new PracticeFolder(folder)
                .run(new StatusCommand(CardFolder.CLOCK))
                .out();
    }

    @Test
    @DisplayName(
            "it comes late, by a clock that was set back in between: what is filed and no longer clear asks, until a person says who it is")
    void lateAndUnclear() throws Exception {
        filed();
        reader.put("card/IMG_0003.JPG", CardFolder.card(HANAKO, "09:09"), "09:09");
        Ran late = reader.intake("card");
        assertThat(late.exit()).isEqualTo(Exit.FINDINGS.code());
        assertThat(reader.whose(NEXT)).isEqualTo("filed-and-in-doubt");
        assertThat(reader.whose(FIRST)).as("before either card of the two").isEqualTo("PG-0001");
        assertThat(status()).contains("must not be cleared").doesNotContain("may be cleared");
        new PracticeFolder(folder)
                .run(new SettleCommand(CardFolder.WORKSHOP, CardFolder.CLOCK), NEXT, "--stage", "before");
        assertThat(reader.whose(NEXT)).as("a word on another matter").isEqualTo("filed-and-in-doubt");
        reader.settle(NEXT, "--patient", "PG-0001");
        deliver();
        assertThat(status()).contains("may be cleared");
        reader.put("card/IMG_0010_teeth-front-occlusion.JPG", CardFolder.photo("09:10"), "09:10");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).as("answered for good").isEqualTo("PG-0001");
    }

    @Test
    @DisplayName("it comes late, and is somebody else's by a person's word: the same goes for what is filed by a card")
    void lateAndUnclearAfterAWord() throws Exception {
        reader.put("card/IMG_0001.JPG", CardFolder.taken(CardPictures.like(SAMPLE, ZOE, true), "09:00"), "09:00");
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        reader.settle("IMG_0001.JPG", "--patient", "PG-0001");
        deliver();
        reader.put("card/IMG_0009_teeth-front-occlusion.JPG", CardFolder.photo("09:08"), "09:08");
        assertThat(reader.intake("card").exit())
                .as("the mirrored card was answered")
                .isEqualTo(Exit.FINE.code());
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
        reader.put("card/IMG_0003.JPG", CardFolder.card(HANAKO, "09:09"), "09:09");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("filed-and-in-doubt");
    }

    @Test
    @DisplayName("it comes late and cut short: what is filed asks like what is not, until it is whole and agrees")
    void lateAndUnreadable() throws Exception {
        filed();
        byte[] next = CardFolder.card(HANAKO, "09:05");
        reader.put("card/IMG_0003.JPG", Arrays.copyOf(next, next.length / 2), "09:05");
        reader.put("card/IMG_0005_teeth-front-occlusion.JPG", CardFolder.photo("09:07"), "09:07");
        reader.intake("card");
        assertThat(reader.whose("IMG_0005_teeth-front-occlusion.JPG")).isEqualTo("card-unreadable");
        assertThat(reader.whose(NEXT)).isEqualTo("filed-and-in-doubt");
        assertThat(reader.whose(FIRST)).as("before it").isEqualTo("PG-0001");
        reader.put("card/IMG_0003.JPG", CardFolder.card(ZOE, "09:05"), "09:05");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("PG-0001");
    }

    private boolean letGo(String name) throws Exception {
        Settings settings = Settings.read(folder.resolve("vestibule.toml"));
        try (Keeping keeping = Keeping.openExisting(folder.resolve("home"), settings, CardFolder.CLOCK)) {
            String photo = keeping.outbox().overview().named(name).get(0).photo();
            List<String> old = keeping.outbox()
                    .copies()
                    .committedBefore(
                            CardFolder.CLOCK.instant().plusSeconds(1),
                            keeping.originals().place(),
                            9);
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
        reader.put("card/IMG_0003.JPG", CardFolder.card(HANAKO, "09:05"), "09:05");
        reader.put("card/IMG_0004.JPG", CardFolder.photo("09:06"), "09:06");
        reader.intake("card");
        new PracticeFolder(folder)
                .run(
                        new SettleCommand(CardFolder.WORKSHOP, CardFolder.CLOCK),
                        "IMG_0003.JPG",
                        "--view",
                        "teeth-front-occlusion");
        deliver();
        assertThat(reader.whose("IMG_0003.JPG")).isEqualTo("PG-0005");
        assertThat(reader.whose("IMG_0004.JPG")).isEqualTo("view-not-said");
        assertThat(letGo("IMG_0003.JPG")).isFalse();
        assertThat(letGo(FIRST)).as("near what waits for a person").isFalse();
        reader.settle("IMG_0004.JPG", "--view", "teeth-front-occlusion");
        assertThat(reader.whose("IMG_0004.JPG")).isEqualTo("PG-0005");
        deliver();
        assertThat(letGo("IMG_0003.JPG")).isFalse();
        assertThat(letGo(FIRST)).isTrue();
        reader.settle("IMG_0004.JPG", "--stage", "before");
        assertThat(reader.whose("IMG_0004.JPG")).isEqualTo("PG-0005");
    }
}
