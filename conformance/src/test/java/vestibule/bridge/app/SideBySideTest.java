package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.intake.Glance;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.intake.SourceReader.Told;
import vestibule.bridge.outbox.Rounds;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.Photographs;

@DisplayName("Photographs that are taken in side by side")
@Timeout(120)
class SideBySideTest {

    private static final int PICTURES = 40;

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();

    @Test
    @DisplayName(
            "every picture twice under neighbouring names: each kept once, half of the files known, nothing left over, and told in the order of names")
    void twins() throws Exception {
        Path card = Files.createDirectories(folder.resolve("card"));
        for (int i = 0; i < PICTURES; i++) {
            byte[] picture = Photographs.jpeg(1000 + i, 40);
            Files.write(card.resolve("IMG_%04d.JPG".formatted(2 * i)), picture);
            Files.write(card.resolve("IMG_%04d.JPG".formatted(2 * i + 1)), picture);
        }
        try (Keeping keeping = keeping()) {
            SourceReader reader = reader(keeping, card, picture -> Optional.of("seen in passing"));
            assertThat(reader.look().awaited()).isEqualTo(2 * PICTURES);
            clock.pass(Duration.ofSeconds(2));
            SourceReader.Look look = reader.look();
            assertThat(look.taken()).hasSize(PICTURES);
            assertThat(look.known()).hasSize(PICTURES);
            assertThat(look.awaited()).isZero();
            assertThat(look.taken()).extracting(Told::name).isSorted();
            assertThat(look.taken()).extracting(Told::what).doesNotHaveDuplicates();
            List<String> photos =
                    new ArrayList<>(look.taken().stream().map(Told::what).toList());
            assertThat(keeping.outbox().readings().of(photos).values())
                    .hasSize(PICTURES)
                    .containsOnly("seen in passing");
        }
        assertThat(files("home/originals", ".jpg")).hasSize(PICTURES);
        assertThat(files("home", ".part")).isEmpty();
    }

    @Test
    @DisplayName("a glance that fails costs the glance alone")
    void failingGlance() throws Exception {
        Path card = Photographs.card(Files.createDirectories(folder.resolve("card")), 5, 2000, 40);
        try (Keeping keeping = keeping()) {
            SourceReader reader = reader(keeping, card, picture -> {
                throw new OutOfMemoryError("in a glance, by this test");
            });
            assertThat(reader.look().awaited()).isEqualTo(5);
            clock.pass(Duration.ofSeconds(2));
            SourceReader.Look look = reader.look();
            assertThat(look.taken()).hasSize(5);
            assertThat(look.leftBehind()).isEmpty();
            assertThat(keeping.outbox()
                            .readings()
                            .of(look.taken().stream().map(Told::what).toList()))
                    .isEmpty();
        }
    }

    @Test
    @DisplayName(
            "a file that grows for more than a minute is waited for no longer, and known as one that may be a patient card")
    void growing() throws Exception {
        Path card = Photographs.card(Files.createDirectories(folder.resolve("card")), 2, 2000, 40);
        Path growing = Files.writeString(card.resolve("GROWING.JPG"), "so far");
        try (Keeping keeping = keeping()) {
            SourceReader reader = reader(keeping, card, picture -> Optional.empty());
            Rounds.Round round =
                    new Rounds.Round(card.toString(), keeping.originals().place(), "one");
            for (int second = 0; second < 64; second += 2) {
                SourceReader.Look look = reader.look();
                assertThat(look.awaited()).isEqualTo(second == 0 ? 3 : 1);
                assertThat(look.late()).isEqualTo(second < 62 ? 0 : 1);
                assertThat(keeping.outbox().rounds().unread(round)).hasSize(second < 62 ? 0 : 1);
                clock.pass(Duration.ofSeconds(2));
                Files.writeString(growing, " and more", StandardOpenOption.APPEND);
            }
            clock.pass(Duration.ofSeconds(2));
            reader.look();
            clock.pass(Duration.ofSeconds(2));
            assertThat(reader.look().leftBehind()).hasSize(1);
            assertThat(keeping.outbox().rounds().unread(round)).hasSize(1);
        }
    }

    private Keeping keeping() throws Exception {
        Settings settings =
                Settings.read(Files.writeString(folder.resolve("vestibule.toml"), "[home]\nreserve = \"1 MB\"\n"));
        return Keeping.open(folder.resolve("home"), settings, clock);
    }

    private SourceReader reader(Keeping keeping, Path card, Glance glance) throws IOException {
        Originals originals = keeping.originals();
        return new SourceReader(
                card,
                originals,
                new OutboxRegister(
                        keeping.outbox().arrivals(),
                        new CaptureMoments(originals, Settings.NONE, clock),
                        card.toString(),
                        originals.place(),
                        keeping.owner()),
                new SourceReader.Manner(LeaveAlone.USUAL, Duration.ofSeconds(1), glance),
                clock);
    }

    private List<Path> files(String under, String ending) throws IOException {
        try (Stream<Path> all = Files.walk(folder.resolve(under))) {
            return all.filter(path -> path.toString().endsWith(ending)).toList();
        }
    }
}
