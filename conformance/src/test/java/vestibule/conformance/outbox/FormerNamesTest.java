package vestibule.conformance.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.bridge.app.BenchClock;
import vestibule.bridge.outbox.Arrivals.Arrival;
import vestibule.bridge.outbox.Arrivals.Sighting;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.Rulings.Known;
import vestibule.conformance.outbox.BothDatabasesTest.Kind;

@DisplayName("Names that photographs lay under, in SQLite and in PostgreSQL")
@Timeout(120)
class FormerNamesTest {

    private static final Instant MORNING = Instant.parse("2026-03-12T08:00:00Z");
    private static final String PHOTO = "a".repeat(64);
    private static final String OTHER = "b".repeat(64);

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();

    private static void takeIn(Outbox outbox, String photo, String name) throws OutboxException {
        outbox.arrivals().record(new Arrival("/card", name, photo, 1000, MORNING, "here", Optional.empty()));
    }

    private static List<String> otherNames(Outbox outbox) throws OutboxException {
        return known(outbox).photograph().otherNames();
    }

    private static Known known(Outbox outbox) throws OutboxException {
        // What is decided is read with what is not
        takeIn(outbox, OTHER, "OTHER.JPG");
        return outbox
                .rulings()
                .known(outbox.rulings().toDecide("/card", "here", photograph -> photograph), Optional.empty())
                .stream()
                .filter(known -> known.photo().equals(PHOTO))
                .findFirst()
                .orElseThrow();
    }

    private static void decide(Outbox outbox) throws OutboxException {
        outbox.rulings().decided(known(outbox), "{}", Optional.empty());
        assertThat(outbox.overview().pending(PHOTO).undecided()).isFalse();
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName(
            "a name that is gone counts on, also where other bytes lie there now, and one that comes back says nothing new")
    void gone(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            takeIn(outbox, PHOTO, "1/A.JPG");
            takeIn(outbox, PHOTO, "2/A.JPG");
            takeIn(outbox, PHOTO, "3/A.JPG");
            decide(outbox);
            outbox.arrivals().gone("/card", List.of("1/A.JPG", "2/A.JPG"));
            outbox.arrivals()
                    .leftBehind(
                            "/card", new Sighting("3/A.JPG", 9, MORNING, Optional.empty(), Optional.of("not whole")));
            assertThat(otherNames(outbox)).containsExactly("2/A.JPG", "3/A.JPG");
            takeIn(outbox, PHOTO, "2/A.JPG");
            assertThat(outbox.overview().pending(PHOTO).undecided()).isFalse();
            assertThat(otherNames(outbox)).containsExactly("2/A.JPG", "3/A.JPG");
            takeIn(outbox, "c".repeat(64), "2/A.JPG");
            assertThat(otherNames(outbox)).containsExactly("2/A.JPG", "3/A.JPG");
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a name that was changed into one that the photograph has elsewhere has it decided again")
    void changedIntoAKnownOne(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            takeIn(outbox, PHOTO, "1/A.JPG");
            outbox.arrivals().record(new Arrival("/stick", "2/A.JPG", PHOTO, 1000, MORNING, "here", Optional.empty()));
            decide(outbox);
            outbox.arrivals().gone("/stick", List.of("2/A.JPG"));
            assertThat(otherNames(outbox)).containsExactly("2/A.JPG");
            outbox.arrivals().record(new Arrival("/stick", "1/A.JPG", PHOTO, 1000, MORNING, "here", Optional.empty()));
            assertThat(outbox.overview().pending(PHOTO).undecided()).isTrue();
            assertThat(otherNames(outbox)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName(
            "a name that was changed into another no longer counts, unless nobody can tell which was, or it is long ago")
    void changed(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            takeIn(outbox, PHOTO, "1/A.JPG");
            takeIn(outbox, PHOTO, "2/A.JPG");
            outbox.arrivals().gone("/card", List.of("2/A.JPG"));
            takeIn(outbox, PHOTO, "1/A.JPG");
            assertThat(otherNames(outbox)).as("it always lay there").containsExactly("2/A.JPG");
            takeIn(outbox, PHOTO, "3/A.JPG");
            assertThat(otherNames(outbox)).as("the second was changed").containsExactly("3/A.JPG");
            outbox.arrivals().gone("/card", List.of("1/A.JPG", "3/A.JPG"));
            takeIn(outbox, PHOTO, "4/A.JPG");
            assertThat(otherNames(outbox)).as("the first or the third was").containsExactly("3/A.JPG", "4/A.JPG");
            takeIn(outbox, PHOTO, "1/A.JPG");
            takeIn(outbox, PHOTO, "3/A.JPG");
            outbox.arrivals().gone("/card", List.of("3/A.JPG"));
            clock.pass(Duration.ofDays(2));
            takeIn(outbox, PHOTO, "5/A.JPG");
            assertThat(otherNames(outbox)).as("days later").containsExactly("3/A.JPG", "4/A.JPG", "5/A.JPG");
        }
    }
}
