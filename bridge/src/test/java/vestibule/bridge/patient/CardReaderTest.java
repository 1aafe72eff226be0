package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.jpeg.HalfSize;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegLimits;
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

    /** Empty where a closer look is wanted. */
    private Optional<CardReader.Reading> glance(byte[] jpeg) throws Exception {
        Path file = Files.write(folder.resolve("glance.jpg"), jpeg);
        try (SeekableByteChannel channel = Files.newByteChannel(file)) {
            HalfSize picture = HalfSize.read(channel, Jpeg.read(channel, JpegLimits.DEFAULT));
            return CardReader.glance(picture.width(), picture.height(), picture.samples());
        }
    }

    /** Five angles in an ordinary run, off the axes, and one that the campaign of every degree found not to be read. */
    static IntStream angles() {
        int step = Integer.getInteger("vestibule.degrees", 73);
        return IntStream.concat(
                IntStream.of(297), IntStream.iterate(4, degrees -> degrees < 364, degrees -> degrees + step));
    }

    @ParameterizedTest
    @DisplayName("are read turned by any angle in a frame of twelve megapixels, large or small in it")
    @MethodSource("angles")
    void anyAngle(int degrees) throws Exception {
        double share = List.of(0.65, 0.45, 0.25).get(degrees % 3);
        byte[] jpeg = PhotographedCard.jpeg(HANAKO, 4_000, 3_000, degrees, share, false, degrees);
        assertThat(glance(jpeg)).as("seen while it is taken in").isEmpty();
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
    @DisplayName("are not seen in photographs of other people's cameras, nor anything that stops as a broken one")
    void otherPeoplesPhotographs() throws Exception {
        Path camera = Path.of("../../shared/corpus/camera");
        Assumptions.assumeTrue(Files.isDirectory(camera), "the corpus is not here");
        int looked = 0;
        try (Stream<Path> files = Files.walk(camera)) {
            for (Path file : files.filter(
                            one -> one.toString().toLowerCase(Locale.ROOT).endsWith(".jpg"))
                    .sorted()
                    .toList()) {
                assertThat(new CardReader().read(file)).as(file.toString()).isInstanceOf(CardReader.Nothing.class);
                looked++;
            }
        }
        assertThat(looked).isGreaterThan(20);
    }

    @Test
    @DisplayName("are not seen in photographs of teeth, and the quick look alone tells so in most of them")
    void quickly() throws Exception {
        int searched = 0;
        List<SamplePhoto> photos = Samples.photos().subList(3, 9);
        for (SamplePhoto photo : photos) {
            Path file = Files.write(folder.resolve(photo.id() + ".jpg"), Samples.jpeg(photo, new PhotoSize(800, 600)));
            assertThat(new CardReader().read(file)).as(photo.id()).isInstanceOf(CardReader.Nothing.class);
            CornerMarks marks =
                    CornerMarks.in(CardReader.quickLook(Luminance.read(file).orElseThrow()));
            searched += marks.maybe() ? 1 : 0;
        }
        assertThat(searched).isLessThan(photos.size() / 2);
    }

    @ParameterizedTest
    @DisplayName("that the search finds without the quick look are found with it, however small or turned")
    @ValueSource(longs = {11, 12, 13, 14, 15, 16, 17, 18})
    void quickLookMissesNone(long seed) throws Exception {
        Random random = new Random(seed);
        double share = 0.09 + random.nextDouble() * 0.6;
        double degrees = random.nextDouble() * 360;
        boolean large = seed % 2 == 0;
        byte[] jpeg = PhotographedCard.jpeg(
                HANAKO,
                large ? 4_000 : 2_000,
                large ? 3_000 : 1_500,
                degrees,
                large ? share / 2 : share,
                random.nextBoolean(),
                seed);
        Path file = Files.write(folder.resolve("frame.jpg"), jpeg);
        CardReader.Reading searched = CardReader.search(Luminance.read(file).orElseThrow());
        if (!(searched instanceof CardReader.Nothing)) {
            assertThat(new CardReader().read(file))
                    .as("seed %d, share %.2f, %.0f degrees", seed, share, degrees)
                    .isEqualTo(searched);
        }
    }

    @ParameterizedTest
    @DisplayName("of which one corner mark is cropped away are no photographs: they cannot be read, and stop")
    @ValueSource(doubles = {0.3, 0.45, 0.6})
    void cropped(double share) throws Exception {
        BufferedImage whole =
                ImageIO.read(new ByteArrayInputStream(PhotographedCard.jpeg(HANAKO, 1_600, 1_200, 0, share, false, 3)));
        int bottom = (int) (1_200 * (0.47 + share / 2 - share / 4));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(whole.getSubimage(0, 0, 1_600, bottom), "jpeg", out);
        assertThat(read(out.toByteArray())).isInstanceOf(CardReader.Unreadable.class);
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
