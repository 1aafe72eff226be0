package vestibule.conformance.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.bridge.app.BenchClock;
import vestibule.bridge.outbox.Arrivals.Arrival;
import vestibule.bridge.outbox.Commitments.Reference;
import vestibule.bridge.outbox.Commitments.Taken;
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.Consignments.Made;
import vestibule.bridge.outbox.Database;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rulings.Known;
import vestibule.bridge.outbox.Rulings.Said;
import vestibule.conformance.fault.ScanHash;
import vestibule.conformance.peer.Databases;

/**
 * SQLite lets one transaction at a time write; on a server of PostgreSQL they meet, and one that sees the rows of another as they were
 * before would work out a state that is not so, or wait for it in a circle.
 */
@DisplayName("Nodes that change the same photographs at the same moment, in PostgreSQL")
@Timeout(120)
class TogetherTest {

    private static final Instant MORNING = Instant.parse("2026-03-12T08:00:00Z");
    private static final String PHOTOGRAPHIC = "1.2.840.10008.5.1.4.1.1.77.1.4";
    private static final int PHOTOS = 200;

    private final BenchClock clock = new BenchClock();

    private static String photo(int number) {
        return ScanHash.sha256(("photo " + number).getBytes(java.nio.charset.StandardCharsets.UTF_8));
    }

    private static Arrival arrival(int number) {
        return new Arrival(
                "/card", "DCIM/IMG_%04d.JPG".formatted(number), photo(number), 1000, MORNING, "here", Optional.empty());
    }

    private static void takeIn(Outbox outbox, int photos) throws OutboxException {
        for (int i = 0; i < photos; i++) {
            outbox.arrivals().record(arrival(i));
        }
    }

    /** The raw picture of a photograph and the corrected one. */
    private static List<Made> pair(String photo) {
        long number = Math.abs((long) photo.hashCode());
        return List.of(
                new Made("2.25.1" + number, PHOTOGRAPHIC, photo + "r", 9, Optional.empty(), List.of()),
                new Made("2.25.2" + number, PHOTOGRAPHIC, photo + "c", 9, Optional.empty(), List.of()));
    }

    /** Stores both objects of every photograph. */
    private static void store(Outbox outbox) throws OutboxException {
        outbox.nodes().alive("one", Duration.ofDays(2));
        for (Known known : outbox.rulings()
                .known(outbox.rulings().toDecide("/card", "here", photograph -> photograph), Optional.empty())) {
            outbox.rulings().decided(known, "{\"decision\":1}", Optional.empty());
        }
        for (Consignment consignment : outbox.consignments().claim("one", "here", PHOTOS)) {
            List<Made> pair = pair(consignment.photo());
            outbox.consignments().made(consignment, pair);
            for (Made made : pair) {
                outbox.consignments().sending(consignment.photo(), consignment.revision(), made.sopInstance(), "one");
                outbox.consignments().stored(consignment.photo(), made.sopInstance(), 0, "");
            }
        }
    }

    private static <T> List<T> together(List<Callable<T>> work) throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(work.size());
        try {
            List<T> all = new ArrayList<>();
            for (Future<T> each : threads.invokeAll(work)) {
                all.add(each.get());
            }
            return all;
        } finally {
            threads.shutdown();
        }
    }

    @Test
    @DisplayName(
            "two commitment reports, each about one object of the same photographs, leave every photograph committed")
    void reports() throws Exception {
        Database.Address address = Databases.postgresql();
        try (Outbox one = Outbox.open(address, clock);
                Outbox other = Outbox.open(address, clock)) {
            takeIn(one, PHOTOS);
            store(one);
            Instant deadline = clock.instant().plus(Duration.ofMinutes(5));
            // They come in the order of their UIDs: the raw pictures in the one request, the corrected ones in the
            // other
            List<Reference> raw = one.commitments().open("2.25.1", "ARCHIVE", PHOTOS, deadline);
            List<Reference> corrected =
                    new ArrayList<>(other.commitments().open("2.25.2", "ARCHIVE", PHOTOS, deadline));
            Collections.reverse(corrected);
            assertThat(raw).hasSize(PHOTOS).allMatch(each -> each.sopInstance().startsWith("2.25.1"));
            assertThat(corrected).hasSize(PHOTOS);
            assertThat(together(List.of(
                            () -> one.commitments().report("2.25.1", "ARCHIVE", raw, List.of()),
                            () -> other.commitments().report("2.25.2", "ARCHIVE", corrected, List.of()))))
                    .containsOnly(Taken.RECORDED);
            assertThat(one.overview().counts()).containsEntry(PhotoState.COMMITTED, PHOTOS);
        }
    }

    @Test
    @DisplayName(
            "a report, words of a person, a card that is put in again, and requests put off, all at once: none gets in the way of another")
    void everythingAtOnce() throws Exception {
        Database.Address address = Databases.postgresql();
        try (Outbox one = Outbox.open(address, clock);
                Outbox other = Outbox.open(address, clock)) {
            takeIn(one, PHOTOS);
            store(one);
            Instant deadline = clock.instant().plus(Duration.ofMinutes(5));
            List<Reference> asked = new ArrayList<>(one.commitments().open("2.25.1", "ARCHIVE", PHOTOS, deadline));
            Collections.shuffle(asked, new java.util.Random(20261126));
            assertThat(together(List.of(
                            () -> one.commitments().report("2.25.1", "ARCHIVE", asked, List.of()),
                            () -> said(other, "patient"),
                            () -> retried(one),
                            () -> takenInAgain(other),
                            () -> putOff(one))))
                    .doesNotContainNull();
            for (int i = 0; i < PHOTOS; i++) {
                assertThat(one.overview().history(photo(i)))
                        .extracting(change -> change.cause())
                        .contains("proven by commitment", "a person said patient", "a person asked to try again");
            }
        }
    }

    private static Integer said(Outbox outbox, String about) throws OutboxException {
        for (int i = PHOTOS - 1; i >= 0; i--) {
            outbox.rulings().say(photo(i), List.of(new Said(about, "PG-0002", Optional.empty(), MORNING)));
        }
        return PHOTOS;
    }

    private static Integer retried(Outbox outbox) throws OutboxException {
        for (int i = 0; i < PHOTOS; i++) {
            outbox.rulings().retry(photo(i), new Said("retry", "yes", Optional.empty(), MORNING));
        }
        return PHOTOS;
    }

    private static Integer takenInAgain(Outbox outbox) throws OutboxException {
        takeIn(outbox, PHOTOS);
        return PHOTOS;
    }

    private Integer putOff(Outbox outbox) throws OutboxException {
        for (int i = 0; i < PHOTOS; i++) {
            outbox.commitments().putOff(clock.instant());
            outbox.consignments().dueNow("here");
            outbox.nodes().release("one");
        }
        return PHOTOS;
    }
}
