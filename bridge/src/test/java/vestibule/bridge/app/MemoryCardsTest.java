package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.intake.Listing;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Memory cards that lie in one reader one after another: whose patient card counts")
class MemoryCardsTest {

    private static final String ASKS = "another-memory-card";
    private static final String FIRST = "card/IMG_0002_teeth-front-occlusion.JPG";
    private static final String NEXT = "IMG_0004_teeth-front-occlusion.JPG";
    private static final String ZOE = PracticeFolder.ZOE.id();

    @TempDir
    Path folder;

    private CardFolder reader;

    @BeforeEach
    void open() throws IOException {
        reader = CardFolder.in(folder, "");
    }

    /** Zoë's card and a photograph of her. */
    private void zoe() throws IOException {
        reader.put("card/IMG_0001.JPG", CardFolder.card(PracticeFolder.ZOE, "09:00"), "09:00");
        reader.put(FIRST, CardFolder.photo("09:01"), "09:01");
    }

    private void next() throws IOException {
        reader.put("card/" + NEXT, CardFolder.photo("09:06"), "09:06");
    }

    @Test
    @DisplayName("what is on the next one asks, what more is on the first does not")
    void another() throws Exception {
        zoe();
        reader.intake("card");
        reader.put("card/IMG_0003_teeth-front-occlusion.JPG", CardFolder.photo("09:02"), "09:02");
        reader.intake("card");
        assertThat(reader.whose("IMG_0003_teeth-front-occlusion.JPG")).isEqualTo(ZOE);
        reader.takeOut("card");
        next();
        assertThat(reader.intake("card").out()).contains(ASKS);
        assertThat(reader.whose(NEXT)).isEqualTo(ASKS);
        reader.takeOut("card");
        zoe();
        reader.put("card/IMG_0005_teeth-front-occlusion.JPG", CardFolder.photo("09:03"), "09:03");
        reader.intake("card");
        assertThat(reader.whose("IMG_0005_teeth-front-occlusion.JPG")).isEqualTo(ZOE);
        assertThat(reader.whose(NEXT)).isEqualTo(ASKS);
    }

    @Test
    @DisplayName("a file that cameras write under one name on each of them, as a raw picture, does not make them one")
    void sameOtherFile() throws Exception {
        zoe();
        reader.put("card/IMG_0002.RAW", "a raw picture of Zoë".getBytes(StandardCharsets.UTF_8), "09:01");
        reader.intake("card");
        reader.takeOut("card");
        reader.put("card/IMG_0002.RAW", "another one".getBytes(StandardCharsets.UTF_8), "09:05");
        next();
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo(ASKS);
    }

    @Test
    @DisplayName("nor does a picture that the practice keeps on all of them, once a person discarded it")
    void sameAddress() throws Exception {
        byte[] address = Samples.jpeg(Samples.photo("hanako-face-profile-left-rest"), PhotoSize.THUMBNAIL);
        zoe();
        reader.put("card/IF-FOUND.JPG", address, "05:00");
        reader.intake("card");
        reader.settle("IF-FOUND.JPG", "--discard");
        reader.takeOut("card");
        reader.put("card/IF-FOUND.JPG", address, "05:00");
        next();
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo(ASKS);
    }

    @Test
    @DisplayName("nor does the name of a file that could not be read there once")
    void onceUnread() throws Exception {
        reader.put("card/IMG_0002.JPG", Arrays.copyOf(CardFolder.photo("05:00"), 3_000), "05:00");
        reader.intake("card");
        reader.takeOut("card");
        reader.put("card/IMG_0001.JPG", CardFolder.card(PracticeFolder.ZOE, "09:00"), "09:00");
        reader.put("card/IMG_0002.JPG", CardFolder.photo("09:01"), "09:01");
        reader.intake("card");
        reader.takeOut("card");
        reader.put("card/IMG_0002.JPG", CardFolder.photo("09:04"), "09:04");
        next();
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo(ASKS);
    }

    @Test
    @DisplayName("a patient card that cannot be read is not made up for by a file of its name on another memory card")
    void answeredByAnotherCard() throws Exception {
        zoe();
        byte[] unreadable = CardFolder.card(PracticeFolder.HANAKO, "09:05");
        reader.put("card/IMG_0003.JPG", Arrays.copyOf(unreadable, unreadable.length / 2), "09:05");
        next();
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("card-unreadable");
        reader.takeOut("card");
        byte[] ofAnotherCamera = new String(CardFolder.photo("09:40"), StandardCharsets.ISO_8859_1)
                .replace("Okulara", "Okularb")
                .replace("OK-", "OL-")
                .getBytes(StandardCharsets.ISO_8859_1);
        reader.put("card/IMG_0003.JPG", ofAnotherCamera, "09:40");
        reader.intake("card");
        assertThat(reader.whose(NEXT)).isEqualTo("card-unreadable");
    }

    @Test
    @DisplayName("a transfer that was alone there and is whole now is on the same one")
    void grown() throws Exception {
        byte[] card = CardFolder.card(PracticeFolder.ZOE, "09:00");
        reader.put("card/IMG_0001.JPG", Arrays.copyOf(card, card.length / 2), "09:00");
        reader.intake("card");
        reader.put("card/IMG_0001.JPG", card, "09:02");
        zoe();
        reader.intake("card");
        assertThat(reader.whose("IMG_0002_teeth-front-occlusion.JPG")).isEqualTo(ZOE);
    }

    @Test
    @DisplayName(
            "files are taken in as they were numbered, so that what is taken in when something fails has no gap with a patient card in it")
    void order() throws IOException {
        reader.put("card/10.JPG", CardFolder.photo("09:06"), "09:06");
        reader.put("card/9.JPG", CardFolder.card(PracticeFolder.ZOE, "09:00"), "09:00");
        assertThat(Listing.of(folder.resolve("card"), LeaveAlone.USUAL).files())
                .extracting(Listing.Entry::name)
                .containsExactly("9.JPG", "10.JPG");
    }

    @Test
    @DisplayName(
            "a name means the file that lies there: none where that is another one than at the last look, and no other after it")
    void names() throws Exception {
        zoe();
        reader.intake("card");
        reader.takeOut("card");
        reader.put(FIRST, CardFolder.photo("09:08"), "09:08");
        String name = FIRST.substring(FIRST.indexOf('/') + 1);
        Ran changed = new PracticeFolder(folder)
                .run(new SettleCommand(CardFolder.WORKSHOP, CardFolder.CLOCK), name, "--patient", "PG-0005");
        assertThat(changed.exit()).isEqualTo(Exit.USAGE.code());
        assertThat(changed.err()).contains("another file than at the last look");
        reader.intake("card");
        reader.settle(name, "--patient", "PG-0005");
        reader.takeOut("card");
        zoe();
        reader.intake("card");
        Ran again = new PracticeFolder(folder)
                .run(new SettleCommand(CardFolder.WORKSHOP, CardFolder.CLOCK), name, "--stage", "before");
        assertThat(again.out()).contains("waiting");
        assertThat(reader.whose(HexFormat.of()
                        .formatHex(MessageDigest.getInstance("SHA-256").digest(CardFolder.photo("09:08")))))
                .isEqualTo("PG-0005");
    }
}
