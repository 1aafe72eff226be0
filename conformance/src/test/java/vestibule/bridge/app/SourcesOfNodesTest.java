package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.outbox.Database;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.peer.Databases;

@DisplayName("Two nodes on one outbox, each with a card at the same path")
@Timeout(120)
class SourcesOfNodesTest {

    @TempDir
    Path folder;

    private Settings settings(Database.Address address) throws Exception {
        Path password =
                Files.writeString(folder.resolve("password"), address.password().orElseThrow());
        return Settings.read(Files.writeString(folder.resolve("vestibule.toml"), """
                [home]
                reserve = "1 MB"
                originals = "%s"
                database = "%s"
                database-user = "%s"
                database-password-file = "%s"
                [intake]
                settle = "1 ms"
                """.formatted(
                folder.resolve("originals"), address.url(), address.user().orElseThrow(), password)));
    }

    /** Puts another card into the reader, whose path stays. */
    private Path putIn(int seed) throws IOException {
        Path card = Files.createDirectories(folder.resolve("card"));
        try (Stream<Path> before = Files.walk(card)) {
            for (Path file : before.filter(Files::isRegularFile).toList()) {
                Files.delete(file);
            }
        }
        Photographs.card(card, 2, seed, 40);
        return card;
    }

    private String takeIn(Keeping keeping, Settings settings, int seed) throws Exception {
        SourceReader reader = keeping.reader(
                putIn(seed), keeping.originalsForIntake(), settings.running().intake(), Clock.systemUTC());
        int taken = 0;
        SourceReader.Look look;
        do {
            look = reader.look();
            taken += look.taken().size();
        } while (look.awaited() > 0);
        assertThat(taken).isEqualTo(2);
        return reader.name();
    }

    private static List<Overview.Source> sources(Keeping keeping) throws IOException {
        return keeping.outbox().overview().sources();
    }

    @Test
    @DisplayName(
            "are two sources: the one forgets nothing of the other, decides nothing by it, and gives no verdict on it")
    void samePath() throws Exception {
        Settings settings = settings(Databases.postgresql());
        try (Keeping roomA = Keeping.open(folder.resolve("a"), settings, Clock.systemUTC());
                Keeping roomB = Keeping.open(folder.resolve("b"), settings, Clock.systemUTC())) {
            String ofA = takeIn(roomA, settings, 31);
            String ofB = takeIn(roomB, settings, 41);
            assertThat(ofA).isEqualTo(folder.resolve("card").toString());
            assertThat(ofB).startsWith(ofA + " (node ").isNotEqualTo(ofA);
            assertThat(roomA.outbox().arrivals().sightings(ofA)).hasSize(2);
            assertThat(roomA.outbox().overview().fate(ofA).photos()).isEqualTo(2);
            assertThat(roomA.outbox().overview().fate(ofB).photos()).isEqualTo(2);
            for (String source : List.of(ofA, ofB)) {
                assertThat(roomA.outbox()
                                .rulings()
                                .toDecide(source, roomA.originals().place(), photo -> photo.source()))
                        .containsExactly(source, source);
            }
            assertThat(verdict(roomA, settings, ofB)).contains("another node looks at it; ask there");
            assertThat(verdict(roomB, settings, ofA)).contains("another node looks at it; ask there");
            assertThat(verdict(roomB, settings, ofB))
                    .doesNotContain("another node", "since the last look")
                    .contains("2 of 2 photographs: waiting");
        }
    }

    @Test
    @DisplayName("each finds its own again when it comes back, whoever is first")
    void again() throws Exception {
        Settings settings = settings(Databases.postgresql());
        String first;
        String second;
        try (Keeping roomA = Keeping.open(folder.resolve("a"), settings, Clock.systemUTC());
                Keeping roomB = Keeping.open(folder.resolve("b"), settings, Clock.systemUTC())) {
            first = takeIn(roomA, settings, 33);
            second = takeIn(roomB, settings, 43);
        }
        try (Keeping roomB = Keeping.open(folder.resolve("b"), settings, Clock.systemUTC());
                Keeping roomA = Keeping.open(folder.resolve("a"), settings, Clock.systemUTC())) {
            assertThat(takeIn(roomB, settings, 51)).isEqualTo(second);
            assertThat(takeIn(roomA, settings, 61)).isEqualTo(first);
            assertThat(sources(roomA)).hasSize(2);
        }
    }

    private static String verdict(Keeping keeping, Settings settings, String source) throws IOException {
        return StatusReport.of(keeping, settings, Clock.systemUTC().instant()).sources().stream()
                .filter(verdict -> verdict.source().equals(source))
                .map(CardVerdict::sentence)
                .findFirst()
                .orElseThrow();
    }
}
