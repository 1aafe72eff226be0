package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.PersonName;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePhoto;
import vestibule.samples.Samples;

@DisplayName("Patient cards")
class CardReaderTest {

    static final Patient HANAKO = new Patient(
            "PG-0005",
            Optional.of("PAINTED-GATE"),
            PersonName.parse("Mihon^Hanako=見本^花子=みほん^はなこ").orElseThrow(),
            Optional.of(LocalDate.of(2000, 2, 29)),
            Optional.of("F"));

    @TempDir
    Path folder;

    private CardReader.Reading read(byte[] jpeg) throws Exception {
        return new CardReader().read(Files.write(folder.resolve("frame.jpg"), jpeg));
    }

    /** Five angles in an ordinary run, off the axes; every degree in the campaign. */
    static IntStream angles() {
        int step = Integer.getInteger("vestibule.degrees", 73);
        return IntStream.iterate(4, degrees -> degrees < 364, degrees -> degrees + step);
    }

    @ParameterizedTest
    @DisplayName("are read turned by any angle in a frame of twelve megapixels, large or small in it")
    @MethodSource("angles")
    void anyAngle(int degrees) throws Exception {
        double share = List.of(0.65, 0.45, 0.25).get(degrees % 3);
        byte[] jpeg = PhotographedCard.jpeg(HANAKO, 4_000, 3_000, degrees, share, false, degrees);
        assertThat(read(jpeg)).isInstanceOfSatisfying(CardReader.Card.class, card -> {
            assertThat(card.mirrored()).isFalse();
            assertThat(card.who().id()).contains("PG-0005");
            assertThat(card.who().issuer()).contains("PAINTED-GATE");
            assertThat(card.who().name()).contains(HANAKO.name());
            assertThat(card.who().birthDate()).contains(LocalDate.of(2000, 2, 29));
        });
    }

    @ParameterizedTest
    @DisplayName("are noticed as mirrored, turned by any angle")
    @ValueSource(ints = {0, 146})
    void mirrored(int degrees) throws Exception {
        byte[] jpeg = PhotographedCard.jpeg(HANAKO, 4_000, 3_000, degrees, 0.45, true, degrees);
        assertThat(read(jpeg))
                .isInstanceOfSatisfying(
                        CardReader.Card.class,
                        card -> assertThat(card.mirrored()).isTrue());
    }

    @Test
    @DisplayName("are not seen in photographs of faces, teeth and casts")
    void photographsAreNoCards() throws Exception {
        for (SamplePhoto photo : Samples.photos()) {
            assertThat(read(Samples.jpeg(photo, PhotoSize.THUMBNAIL)))
                    .as(photo.id())
                    .isInstanceOf(CardReader.Nothing.class);
        }
    }

    @Test
    @DisplayName("with one character changed, a line too many or another version name nobody")
    void damagedText() {
        String text = CardText.write(HANAKO);
        assertThat(CardText.read(text)).isPresent();
        long seed = 20_260_312;
        Random random = new Random(seed);
        for (int i = 0; i < 2_000; i++) {
            int at = random.nextInt(text.length());
            char other = (char) (32 + random.nextInt(95));
            String damaged = text.substring(0, at) + other + text.substring(at + 1);
            assertThat(CardText.read(damaged).isPresent())
                    .as("seed %d, character %d", seed, at)
                    .isEqualTo(damaged.equals(text));
        }
        for (String other : List.of(
                text.replace("CARD:1", "CARD:2"),
                text + "\nmore=1",
                text.replace("\nborn=", "\nborn=1"),
                "",
                "\n\n",
                "check=")) {
            assertThat(CardText.read(other)).as(other).isEmpty();
        }
    }

    @Test
    @DisplayName("are printed as a page that needs nothing from anywhere, with name, birth date and id in words")
    void page() {
        Patient odd =
                new Patient("1<2", Optional.empty(), PersonName.of("A&B", "C"), Optional.empty(), Optional.empty());
        assertThat(CardPage.html(HANAKO))
                .contains("PG-0005", "2000-02-29", "Mihon^Hanako")
                .doesNotContain("src=", "href=", "@import", "url(");
        assertThat(CardPage.html(odd)).contains("1&lt;2", "A&amp;B^C", "(not known)");
    }
}
