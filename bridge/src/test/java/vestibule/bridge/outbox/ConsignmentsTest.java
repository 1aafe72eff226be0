package vestibule.bridge.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Objects made twice, where settings or the program have changed in between")
class ConsignmentsTest {

    private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
    private static final String PHOTO = "a".repeat(64);
    private static final String NODE = "node";
    private static final String PLACE = "here";

    @TempDir
    Path folder;

    private Outbox outbox;

    @BeforeEach
    void open() throws OutboxException {
        outbox = Outbox.open(Database.Address.file(folder.resolve("outbox.db")), Clock.fixed(NOON, ZoneOffset.UTC));
        outbox.arrivals().record(new Arrivals.Arrival("card", "IMG_0001.JPG", PHOTO, 9, NOON, PLACE, Optional.empty()));
        outbox.nodes().alive(NODE, Duration.ofDays(1));
        decide("first");
    }

    @AfterEach
    void close() {
        outbox.close();
    }

    private void decide(String decision) throws OutboxException {
        outbox.rounds().begin(new Rounds.Round("card", PLACE, NODE));
        List<Rulings.Photograph> photographs = outbox.rulings().toDecide("card", PLACE, photograph -> photograph);
        for (Rulings.Known known : outbox.rulings().known(photographs, Optional.empty())) {
            outbox.rulings().decided(known, decision, Optional.empty());
        }
        outbox.rounds().end(new Rounds.Round("card", PLACE, NODE));
    }

    private void decideAgain() throws OutboxException {
        outbox.consignments().release(PHOTO, NODE);
        outbox.rulings().say(PHOTO, List.of(new Rulings.Said("stage", "x", Optional.empty(), NOON)));
        decide("second");
    }

    private Consignments.Consignment claimed() throws OutboxException {
        return outbox.consignments().claim(NODE, PLACE, 1).get(0);
    }

    /** Makes objects, each given as an identifier and a digest; what the outbox has of them. */
    private List<String> made(Consignments.Consignment consignment, String... objects) throws OutboxException {
        return outbox
                .consignments()
                .made(
                        consignment,
                        Stream.of(objects)
                                .map(object -> object.split(" ", 2))
                                .map(parts -> new Consignments.Made(
                                        parts[0], "1.2.3", parts[1], 9, Optional.empty(), List.of()))
                                .toList())
                .stream()
                .map(item -> item.sopInstance() + " " + item.digest())
                .toList();
    }

    private boolean begin(Consignments.Consignment consignment, String object) throws OutboxException {
        return outbox.consignments().sending(PHOTO, consignment.revision(), object, NODE);
    }

    @Test
    @DisplayName("what was never begun is made anew: other bytes, another identifier, one object less")
    void neverBegun() throws OutboxException {
        Consignments.Consignment one = claimed();
        assertThat(made(one, "1.1 old", "1.2 old")).containsExactly("1.1 old", "1.2 old");
        assertThat(made(one, "1.1 new", "1.2 new")).containsExactly("1.1 new", "1.2 new");
        assertThat(made(one, "1.3 new")).containsExactly("1.3 new");
        assertThat(begin(one, "1.3")).isTrue();
        outbox.consignments().stored(PHOTO, "1.3", 0, "");
        assertThat(outbox.overview().named(PHOTO).get(0).state())
                .as("nothing else is waited for")
                .isEqualTo(PhotoState.SENT);
    }

    @Test
    @DisplayName(
            "what was begun is only ever the same, byte for byte, also where the archive turned out not to have it")
    void begun() throws OutboxException {
        Consignments.Consignment one = claimed();
        made(one, "1.1 old", "1.2 old");
        assertThat(begin(one, "1.1")).isTrue();
        outbox.consignments().absent(PHOTO, "1.1", "the archive does not have it");
        assertThat(made(one, "1.1 new", "1.2 old")).isEmpty();
        assertThat(made(one, "1.1 old", "1.2 new")).as("one of them was begun").isEmpty();
        assertThat(made(one, "1.3 new")).isEmpty();
        assertThat(made(one, "1.1 old", "1.2 old")).containsExactly("1.1 old", "1.2 old");
        decideAgain();
        assertThat(made(claimed(), "1.1 new")).as("nor for another decision").isEmpty();
    }

    @Test
    @DisplayName("another decision that leads to the same object may have other bytes of it, if it was never begun")
    void decidedAgain() throws OutboxException {
        made(claimed(), "1.1 old");
        decideAgain();
        assertThat(made(claimed(), "1.1 new")).containsExactly("1.1 new");
    }
}
