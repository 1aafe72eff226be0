package vestibule.bridge.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Reports of commitment that come late")
class CommitmentsTest {

    private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
    private static final String PHOTO = "a".repeat(64);
    private static final String NODE = "node";
    private static final String PLACE = "here";
    private static final String ARCHIVE = "ARCHIVE";
    private static final Commitments.Reference OBJECT = new Commitments.Reference("2.25.1", "1.2.3");

    @TempDir
    Path folder;

    private Instant now = NOON;
    private Outbox outbox;

    @BeforeEach
    void open() throws OutboxException {
        outbox = Outbox.open(Database.Address.file(folder.resolve("outbox.db")), clock());
        outbox.arrivals().record(new Arrivals.Arrival("card", "IMG_0001.JPG", PHOTO, 9, NOON, PLACE, Optional.empty()));
        outbox.nodes().alive(NODE, Duration.ofDays(1));
        Rounds.Round round = new Rounds.Round("card", PLACE, NODE);
        outbox.rounds().begin(round);
        List<Rulings.Photograph> photographs = outbox.rulings().toDecide("card", PLACE, photograph -> photograph);
        for (Rulings.Known known : outbox.rulings().known(photographs, Optional.empty())) {
            outbox.rulings().decided(known, "decision", Optional.empty());
        }
        outbox.rounds().end(round);
        Consignments.Made object = new Consignments.Made(
                OBJECT.sopInstance(), OBJECT.sopClass(), "digest", 9, Optional.empty(), List.of());
        outbox.consignments().made(claimed(), List.of(object));
        begin();
        outbox.consignments().stored(PHOTO, OBJECT.sopInstance(), 0, "");
    }

    private Clock clock() {
        return new Clock() {
            @Override
            public ZoneOffset getZone() {
                return ZoneOffset.UTC;
            }

            @Override
            public Clock withZone(ZoneId zone) {
                return this;
            }

            @Override
            public Instant instant() {
                return now;
            }
        };
    }

    @AfterEach
    void close() {
        outbox.close();
    }

    private Consignments.Consignment claimed() throws OutboxException {
        outbox.consignments().release(PHOTO, NODE);
        return outbox.consignments().claim(NODE, PLACE, 1).get(0);
    }

    private void begin() throws OutboxException {
        assertThat(outbox.consignments().sending(PHOTO, claimed().revision(), OBJECT.sopInstance(), NODE))
                .isTrue();
    }

    /** Asks, and is not answered in time. */
    private void askInVain(String transaction) throws OutboxException {
        ask(transaction);
        now = now.plus(Duration.ofHours(1));
        assertThat(outbox.commitments().expire()).isEqualTo(1);
        now = now.plus(Duration.ofMinutes(5));
    }

    private void ask(String transaction) throws OutboxException {
        assertThat(outbox.commitments().open(transaction, ARCHIVE, 9, now.plus(Duration.ofHours(1))))
                .containsExactly(OBJECT);
    }

    private Commitments.Taken committed(String transaction) throws OutboxException {
        return outbox.commitments().report(transaction, ARCHIVE, List.of(OBJECT), List.of());
    }

    private void lost(String transaction) throws OutboxException {
        outbox.commitments()
                .report(
                        transaction,
                        ARCHIVE,
                        List.of(),
                        List.of(new Commitments.Failed(OBJECT, Commitments.Refusal.ABSENT, "no such object")));
        assertThat(state()).isEqualTo(PhotoState.WAITING);
        now = now.plus(Duration.ofMinutes(5));
    }

    private PhotoState state() throws OutboxException {
        return outbox.overview().named(PHOTO).get(0).state();
    }

    @Test
    @DisplayName("one about an object that was not sent again since it was asked for is believed")
    void late() throws OutboxException {
        askInVain("2.25.101");
        ask("2.25.102");
        assertThat(committed("2.25.101")).isEqualTo(Commitments.Taken.RECORDED);
        assertThat(state()).isEqualTo(PhotoState.COMMITTED);
    }

    @Test
    @DisplayName("one about a copy that the archive lost is no promise about the copy that was sent after it")
    void ofALostCopy() throws OutboxException {
        askInVain("2.25.101");
        askInVain("2.25.102");
        ask("2.25.103");
        lost("2.25.103");
        begin();
        outbox.consignments().stored(PHOTO, OBJECT.sopInstance(), 0, "");
        assertThat(committed("2.25.101")).isEqualTo(Commitments.Taken.RECORDED);
        assertThat(state()).isEqualTo(PhotoState.SENT);
        ask("2.25.104");
        assertThat(committed("2.25.102")).isEqualTo(Commitments.Taken.RECORDED);
        assertThat(state()).as("while the new copy is asked for").isEqualTo(PhotoState.SENT);
        assertThat(committed("2.25.104")).isEqualTo(Commitments.Taken.RECORDED);
        assertThat(state()).isEqualTo(PhotoState.COMMITTED);
    }

    @Test
    @DisplayName("nor where the answer to sending it again was missed, and the archive was found to have it")
    void foundAfterALostCopy() throws OutboxException {
        askInVain("2.25.101");
        ask("2.25.102");
        lost("2.25.102");
        begin();
        outbox.consignments().found(PHOTO, OBJECT.sopInstance());
        assertThat(committed("2.25.101")).isEqualTo(Commitments.Taken.RECORDED);
        assertThat(state()).isEqualTo(PhotoState.WAITING);
    }
}
