package vestibule.conformance.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.bridge.app.BenchClock;
import vestibule.bridge.outbox.Arrivals.Arrival;
import vestibule.bridge.outbox.Arrivals.Sighting;
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.Consignments.Made;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.Rounds.Round;
import vestibule.bridge.outbox.Rounds.Unread;
import vestibule.bridge.outbox.Rulings.Elsewhere;
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
        takeIn(outbox, "/card", photo, fileTime);
    }

    private static void takeIn(Outbox outbox, String source, String photo, Instant fileTime) throws OutboxException {
        outbox.arrivals()
                .record(new Arrival(
                        source, "DCIM/" + photo + ".JPG", photo.repeat(64), 1000, fileTime, "here", Optional.empty()));
    }

    private static void takeIn(Outbox outbox, int number, Instant fileTime, Instant captured) throws OutboxException {
        outbox.arrivals()
                .record(new Arrival(
                        "/card",
                        "DCIM/%d.JPG".formatted(number),
                        "%064d".formatted(number),
                        1000,
                        fileTime,
                        Optional.of(captured),
                        "here",
                        Optional.empty()));
    }

    private static List<Known> toDecide(Outbox outbox) throws OutboxException {
        return known(outbox, "/card");
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
    @DisplayName(
            "what was taken together is near however late its file came, and what came with either is read with them")
    void nearByEitherTime(Kind kind) throws Exception {
        Instant evening = MORNING.minus(Duration.ofHours(16));
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, 1, evening, evening);
            takeIn(outbox, 2, evening.plusSeconds(60), evening.minus(Duration.ofDays(9)));
            takeIn(outbox, 3, evening.minus(Duration.ofDays(3)), evening.minus(Duration.ofDays(3)));
            decideAll(outbox);
            takeIn(outbox, 4, MORNING, evening.minusSeconds(60));
            assertThat(claimable(outbox)).as("before the round").hasSize(2);
            assertThat(outbox.consignments().isDue("here")).isTrue();
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            List<Photograph> all = outbox.rulings().toDecide("/card", "here", photograph -> photograph);
            assertThat(all).extracting(Photograph::name).containsExactly("DCIM/1.JPG", "DCIM/2.JPG", "DCIM/4.JPG");
            assertThat(all)
                    .extracting(photograph -> photograph.elsewhere().decided())
                    .as("which only bear witness")
                    .containsExactly(false, true, false);
            decideAll(outbox);
            assertThat(claimable(outbox)).as("in the round").hasSize(2);
            outbox.rounds().end(OURS);
            assertThat(claimable(outbox)).hasSize(4);
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a source whose photographs are of more days than a query can tell apart is decided all the same")
    void manyDays(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            for (int day = 0; day < 40; day++) {
                takeIn(outbox, day, MORNING.plus(Duration.ofDays(2L * day)), MORNING.minus(Duration.ofDays(2L * day)));
            }
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            assertThat(toDecide(outbox)).hasSize(40);
            decideAll(outbox);
            outbox.rounds().end(OURS);
            takeIn(outbox, 40, MORNING, MORNING);
            assertThat(toDecide(outbox)).hasSize(2);
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName(
            "a file that cannot be read holds what is near it until that is decided with it, and once more when it is whole")
    void unread(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, "a", MORNING);
            takeIn(outbox, "c", MORNING.plus(Duration.ofHours(40)));
            decideAll(outbox);
            Instant later = MORNING.plus(Duration.ofHours(1));
            for (int look = 0; look < 3; look++) {
                outbox.arrivals()
                        .unread(
                                "/card",
                                "here",
                                new Sighting(
                                        "DCIM/b.JPG",
                                        look,
                                        later.plusSeconds(look),
                                        Optional.empty(),
                                        Optional.empty()));
            }
            assertThat(claimable(outbox)).hasSize(1);
            assertThat(outbox.overview().isDeciding("here")).isTrue();
            assertThat(outbox.rulings().sources("here")).containsExactly("/card");
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            assertThat(outbox.rounds().unread(OURS)).containsExactly(new Unread("DCIM/b.JPG", 0, later));
            assertThat(toDecide(outbox)).as("what is near it").hasSize(1);
            assertThat(claimable(outbox)).hasSize(1);
            outbox.rounds().end(OURS);
            assertThat(claimable(outbox)).hasSize(2);
            outbox.arrivals().gone("/card", List.of("DCIM/b.JPG"));
            assertThat(outbox.rulings().sources("here")).as("gone is no answer").isEmpty();
            takeIn(outbox, "b", later.plusSeconds(9));
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            assertThat(outbox.rounds().unread(OURS)).isEmpty();
            assertThat(toDecide(outbox)).hasSize(2);
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName(
            "a known photograph newly seen in a source holds what is near it there, and itself until that source said whose it is")
    void knownElsewhere(Kind kind) throws Exception {
        Round other = new Round("/other", "here", "one");
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, "/other", "b", MORNING.minus(Duration.ofHours(40)));
            Known before = known(outbox, "/other").get(0);
            outbox.rulings().decided(before, "{\"decision\":1}", Optional.empty());
            takeIn(outbox, "a", MORNING);
            decideAll(outbox);
            assertThat(claimable(outbox)).hasSize(2);
            takeIn(outbox, "b", MORNING.plus(Duration.ofHours(2)));
            takeIn(outbox, "b", MORNING.plus(Duration.ofHours(2)));
            assertThat(claimable(outbox)).isEmpty();
            assertThat(outbox.consignments().isDue("here")).isFalse();
            assertThat(outbox.rounds().begin(OURS)).isTrue();
            List<Photograph> all = outbox.rulings().toDecide("/card", "here", photograph -> photograph);
            assertThat(all).hasSize(2);
            assertThat(all.get(0).elsewhere().decided()).isFalse();
            assertThat(all.get(1).elsewhere().decided()).isTrue();
            outbox.rounds().bear(OURS, Map.of("b".repeat(64), Optional.of("hers")));
            outbox.rounds().end(OURS);
            assertThat(outbox.rulings().sources("here")).containsExactly("/other");
            outbox.rulings().decided(before, "{\"decision\":2}", Optional.empty());
            assertThat(outbox.overview().decision("b".repeat(64)))
                    .as("read before that was said")
                    .contains("{\"decision\":1}");
            assertThat(outbox.rounds().begin(other)).isTrue();
            Known heard = known(outbox, "/other").get(0);
            assertThat(heard.photograph().elsewhere().heard()).containsExactly("hers");
            outbox.rulings().decided(heard, "{\"decision\":3}", Optional.empty());
            outbox.rounds().end(other);
            assertThat(claimable(outbox)).hasSize(2);
        }
    }

    /** What would be claimed now. */
    private static List<Consignment> claimable(Outbox outbox) throws OutboxException {
        List<Consignment> claimed = outbox.consignments().claim("one", "here", 9);
        for (Consignment one : claimed) {
            outbox.consignments().release(one.photo(), "one");
        }
        return claimed;
    }

    private static List<Known> known(Outbox outbox, String source) throws OutboxException {
        return outbox.rulings()
                .known(outbox.rulings().toDecide(source, "here", photograph -> photograph), Optional.empty());
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a photograph that began to be sent while it was decided is decided again")
    void sendingBegan(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), clock)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, "a", MORNING);
            decideAll(outbox);
            Photograph photograph = new Photograph(
                    "a".repeat(64),
                    "DCIM/a.JPG",
                    List.of(),
                    "/card",
                    "/card",
                    0,
                    MORNING,
                    MORNING,
                    List.of(),
                    new Elsewhere(false, false, Optional.empty(), List.of()));
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
