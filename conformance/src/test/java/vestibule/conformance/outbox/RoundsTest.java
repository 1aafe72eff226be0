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
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.Consignments.Made;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.Rounds.Round;
import vestibule.bridge.outbox.Rulings.Known;
import vestibule.bridge.outbox.Rulings.Photograph;
import vestibule.conformance.outbox.BothDatabasesTest.Kind;

@DisplayName("Rounds of decisions, in SQLite and in PostgreSQL")
@Timeout(120)
class RoundsTest {

    private static final Instant MORNING = Instant.parse("2026-03-12T08:00:00Z");
    private static final Duration PROMISE = Duration.ofDays(2);
    private static final Round OURS = new Round("/card", "here", "one");
    private static final Round THEIRS = new Round("/card", "here", "two");

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();

    private static void takeIn(Outbox outbox, String photo, Instant fileTime) throws OutboxException {
        outbox.arrivals()
                .record(new Arrival(
                        "/card", "DCIM/" + photo + ".JPG", photo.repeat(64), 1000, fileTime, "here", Optional.empty()));
    }

    private static List<Known> toDecide(Outbox outbox) throws OutboxException {
        return outbox.rulings()
                .known(outbox.rulings().toDecide("/card", "here", photograph -> photograph), Optional.empty());
    }

    private static void decideAll(Outbox outbox) throws OutboxException {
        for (Known known : toDecide(outbox)) {
            outbox.rulings().decided(known, "{\"decision\":1}", Optional.empty());
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("one process decides a source at a time; what it leaves is taken up, with all that was to be decided")
    void oneAtATime(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            takeIn(outbox, "a", MORNING);
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            assertThat(outbox.rounds().begin(THEIRS)).isFalse();
            assertThat(outbox.rounds().begin(OURS)).as("after it was killed").isTrue();
            decideAll(outbox);
            assertThat(outbox.rulings().sources("here")).as("not through yet").containsExactly("/card");
            outbox.rounds().leave(OURS);
            assertThat(outbox.rounds().begin(THEIRS)).isTrue();
            assertThat(toDecide(outbox)).as("decided, and looked at again").hasSize(1);
            assertThat(outbox.rounds().goesOn(OURS)).isFalse();
            outbox.rounds().end(OURS);
            assertThat(outbox.rounds().goesOn(THEIRS)).isTrue();
            assertThat(outbox.overview().isDeciding("here")).isTrue();
            assertThat(outbox.overview().isDeciding("elsewhere")).isFalse();
            outbox.rounds().end(THEIRS);
            assertThat(outbox.overview().isDeciding("here")).isFalse();
            assertThat(outbox.rulings().sources("here")).isEmpty();
            assertThat(outbox.rounds().begin(OURS))
                    .as("nothing is to be decided")
                    .isFalse();
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("who lost a round to another records nothing any more, and what arrived since it began belongs to it")
    void overtaken(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            takeIn(outbox, "a", MORNING);
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            takeIn(outbox, "b", MORNING.plus(Duration.ofHours(40)));
            List<Photograph> all = outbox.rulings().toDecide("/card", "here", photograph -> photograph);
            assertThat(all).hasSize(2);
            List<Known> ours = outbox.rulings().known(all, Optional.of(OURS));
            outbox.rounds().leave(OURS);
            assertThat(outbox.rounds().begin(THEIRS)).isTrue();
            for (Known known : ours) {
                outbox.rulings().decided(known, "{\"decision\":1}", Optional.empty());
            }
            assertThat(outbox.overview().decision("a".repeat(64))).isEmpty();
            for (Known known : outbox.rulings().known(all, Optional.of(THEIRS))) {
                outbox.rulings().decided(known, "{\"decision\":2}", Optional.empty());
            }
            assertThat(outbox.overview().decision("b".repeat(64))).contains("{\"decision\":2}");
            outbox.nodes().alive("one", PROMISE);
            assertThat(outbox.consignments().claim("one", "here", 9))
                    .as("the round covers both")
                    .isEmpty();
            outbox.rounds().end(THEIRS);
            assertThat(outbox.consignments().claim("one", "here", 9)).hasSize(2);
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("nothing is claimed or sent while something near it is to be decided, or a round is not through")
    void nothingNear(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, "a", MORNING);
            outbox.rounds().begin(OURS);
            decideAll(outbox);
            assertThat(outbox.consignments().isDue("here")).isFalse();
            assertThat(outbox.consignments().claim("one", "here", 9)).isEmpty();
            outbox.rounds().end(OURS);
            assertThat(outbox.consignments().isDue("here")).isTrue();
            Consignment claimed = outbox.consignments().claim("one", "here", 9).get(0);
            Made made = new Made("2.25.1", "1.2.840.10008.5.1.4.1.1.77.1.4", "d", 9, Optional.empty(), List.of());
            outbox.consignments().made(claimed, List.of(made));
            takeIn(outbox, "b", MORNING.plus(Duration.ofHours(11)));
            assertThat(outbox.consignments().sending(claimed.photo(), claimed.revision(), "2.25.1", "one"))
                    .as("a neighbour came after it was claimed")
                    .isFalse();
            decideAll(outbox);
            takeIn(outbox, "c", MORNING.plus(Duration.ofHours(40)));
            assertThat(outbox.consignments().sending(claimed.photo(), claimed.revision(), "2.25.1", "one"))
                    .as("what came is far away")
                    .isTrue();
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a photograph that began to be sent while it was decided is decided again")
    void sendingBegan(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, "a", MORNING);
            decideAll(outbox);
            Photograph photograph =
                    new Photograph("a".repeat(64), "DCIM/a.JPG", List.of(), "/card", MORNING, MORNING, List.of());
            Known before = outbox.rulings()
                    .known(List.of(photograph), Optional.empty())
                    .get(0);
            Consignment claimed = outbox.consignments().claim("one", "here", 9).get(0);
            Made made = new Made("2.25.1", "1.2.840.10008.5.1.4.1.1.77.1.4", "d", 9, Optional.empty(), List.of());
            outbox.consignments().made(claimed, List.of(made));
            assertThat(outbox.consignments().sending(claimed.photo(), claimed.revision(), "2.25.1", "one"))
                    .isTrue();
            outbox.rulings().decided(before, "{\"decision\":2}", Optional.empty());
            assertThat(outbox.overview().decision(claimed.photo())).contains("{\"decision\":1}");
            assertThat(outbox.rulings().sources("here")).containsExactly("/card");
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a doubt, or a card set aside, that stands already is not written down again")
    void notAgain(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            takeIn(outbox, "a", MORNING);
            takeIn(outbox, "b", MORNING);
            List<Known> known = toDecide(outbox);
            for (int i = 0; i < 3; i++) {
                outbox.rulings().doubtful(known.get(0), "no-patient", "Nobody says who it is.", Optional.empty());
                outbox.rulings().setAside(known.get(1), "It is a patient card.");
            }
            assertThat(outbox.overview().history("a".repeat(64))).hasSize(2);
            assertThat(outbox.overview().history("b".repeat(64))).hasSize(2);
        }
    }
}
