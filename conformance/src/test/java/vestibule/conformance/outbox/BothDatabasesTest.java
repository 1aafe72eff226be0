package vestibule.conformance.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
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
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.bridge.app.BenchClock;
import vestibule.bridge.outbox.Arrivals.Arrival;
import vestibule.bridge.outbox.Arrivals.Sighting;
import vestibule.bridge.outbox.Commitments.Failed;
import vestibule.bridge.outbox.Commitments.Reference;
import vestibule.bridge.outbox.Commitments.Refusal;
import vestibule.bridge.outbox.Commitments.Taken;
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.Consignments.Made;
import vestibule.bridge.outbox.Database;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rounds;
import vestibule.bridge.outbox.Rulings.Known;
import vestibule.bridge.outbox.Rulings.Photograph;
import vestibule.bridge.outbox.Rulings.Said;
import vestibule.bridge.outbox.Withdrawals;
import vestibule.conformance.fault.ScanHash;
import vestibule.conformance.peer.Databases;

@DisplayName("The outbox in SQLite and in PostgreSQL")
@Timeout(120)
class BothDatabasesTest {
    private static final Instant MORNING = Instant.parse("2026-03-12T08:00:00Z");
    private static final Duration PROMISE = Duration.ofSeconds(30);

    @TempDir
    Path folder;

    private BenchClock watch = new BenchClock();

    enum Kind {
        SQLITE,
        POSTGRESQL;

        Database.Address at(Path folder) throws Exception {
            return this == SQLITE ? Databases.sqlite(folder) : Databases.postgresql();
        }
    }

    private static String photo(int number) {
        return ScanHash.sha256(("photo " + number).getBytes(java.nio.charset.StandardCharsets.UTF_8));
    }

    private static void takeIn(Outbox outbox, int photos, String place) throws OutboxException {
        for (int i = 0; i < photos; i++) {
            String name = "DCIM/IMG_%04d.JPG".formatted(i);
            assertThat(outbox.arrivals()
                            .record(new Arrival("/card", name, photo(i), 1000 + i, MORNING, place, Optional.empty())))
                    .isTrue();
        }
    }

    private static List<Known> toDecide(Outbox outbox, String place) throws OutboxException {
        return outbox.rulings()
                .known(outbox.rulings().toDecide("/card", place, photograph -> photograph), Optional.empty());
    }

    private static void decideAll(Outbox outbox, String place) throws OutboxException {
        for (Known known : toDecide(outbox, place)) {
            if (known.undecided()) {
                outbox.rulings().decided(known, "{\"decision\":1}", Optional.empty());
            }
        }
    }

    private static Made object(String photo) {
        return new Made(
                "2.25." + Math.abs((long) photo.hashCode()),
                "1.2.840.10008.5.1.4.1.1.77.1.4",
                photo,
                2000,
                Optional.of("what a note repeats"),
                List.of());
    }

    /** A rejection note. */
    private static Made note(String instance, String named) {
        return new Made(instance, "1.2.840.10008.5.1.4.1.1.88.59", instance, 900, Optional.empty(), List.of(named));
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName(
            "what was filed and is decided otherwise stays on the list until its note is stored, or a person says so")
    void takenBack(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), watch)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, 1, "here");
            decideAll(outbox, "here");
            Consignment first = outbox.consignments().claim("one", "here", 1).get(0);
            ship(outbox, first);
            String old = object(photo(0)).sopInstance();
            outbox.rulings().say(photo(0), List.of(new Said("patient", "PG-0002", Optional.empty(), MORNING)));
            Known known = toDecide(outbox, "here").get(0);
            assertThat(known.filed()).isTrue();
            outbox.rulings().decided(known, "{\"decision\":2}", Optional.of("wrong-patient"));
            assertThat(outbox.withdrawals().open(Optional.empty()))
                    .singleElement()
                    .satisfies(open -> {
                        assertThat(open.sopInstance()).isEqualTo(old);
                        assertThat(open.reason()).isEqualTo("wrong-patient");
                        assertThat(open.nameable()).isTrue();
                        assertThat(open.byNote()).isFalse();
                    });
            assertThat(outbox.withdrawals().toName(photo(0))).hasSize(1);
            Consignment second = outbox.consignments().claim("one", "here", 1).get(0);
            Made fresh = new Made("2.25.99", "1.2.840.10008.5.1.4.1.1.77.1.4", "b", 9, Optional.empty(), List.of());
            assertThat(outbox.consignments().made(second, List.of(fresh, note("2.25.77", old))))
                    .hasSize(2);
            assertThat(outbox.withdrawals().open(Optional.of(photo(0))).get(0).byNote())
                    .isTrue();
            assertThat(outbox.consignments().made(second, List.of(fresh)))
                    .as("made without the note, which was not sent")
                    .hasSize(1);
            assertThat(outbox.consignments().made(second, List.of(fresh, note("2.25.77", old))))
                    .hasSize(2);
            for (String instance : List.of("2.25.99", "2.25.77")) {
                assertThat(outbox.consignments().sending(photo(0), second.revision(), instance, "one"))
                        .isTrue();
                assertThat(outbox.withdrawals().open(Optional.empty())).hasSize(1);
                outbox.consignments().stored(photo(0), instance, 0, "");
            }
            assertThat(outbox.withdrawals().open(Optional.empty())).isEmpty();
            assertThat(outbox.overview().named(photo(0)).get(0).state()).isEqualTo(PhotoState.SENT);
            outbox.rulings().say(photo(0), List.of(new Said("patient", "PG-0003", Optional.empty(), MORNING)));
            outbox.rulings().decided(toDecide(outbox, "here").get(0), "{\"decision\":3}", Optional.of("wrong-patient"));
            assertThat(outbox.withdrawals().open(Optional.empty()))
                    .extracting(Withdrawals.Open::sopInstance)
                    .containsExactly("2.25.99");
            Said done = new Said("taken-back", "yes", Optional.of("somebody"), MORNING);
            assertThat(outbox.withdrawals().settled(photo(0), done)).isEqualTo(1);
            assertThat(outbox.withdrawals().settled(photo(0), done)).isZero();
            assertThat(outbox.withdrawals().open(Optional.empty())).isEmpty();
        }
    }

    @Test
    @DisplayName("the same story leaves the same states, sentences and history in both")
    void sameStory() throws Exception {
        List<String> inSqlite = story(Kind.SQLITE.at(folder));
        watch = new BenchClock();
        assertThat(story(Kind.POSTGRESQL.at(folder))).isEqualTo(inSqlite);
        assertThat(inSqlite).anyMatch(line -> line.contains("committed"));
    }

    /** Five photographs: committed, refused for good, doubtful and settled, set aside, lost by the archive and sent again. */
    private List<String> story(Database.Address address) throws Exception {
        try (Outbox outbox = Outbox.open(address, watch)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, 5, "here");
            assertThat(outbox.arrivals()
                            .record(new Arrival(
                                    "/card", "DCIM/COPY.JPG", photo(0), 1000, MORNING, "here", Optional.empty())))
                    .isFalse();
            Sighting left = new Sighting("B/1.JPG", 5, MORNING, Optional.empty(), Optional.of("it is no whole JPEG"));
            outbox.arrivals().leftBehind("/card", left);
            outbox.arrivals().looked("/card");
            rule(outbox);
            for (Consignment consignment : outbox.consignments().claim("one", "here", 10)) {
                ship(outbox, consignment);
            }
            promise(outbox);
            watch.pass(Duration.ofHours(1));
            for (Consignment consignment : outbox.consignments().claim("one", "here", 10)) {
                ship(outbox, consignment);
            }
            outbox.nodes().ended("one");
            return told(outbox);
        }
    }

    private void rule(Outbox outbox) throws OutboxException {
        List<Known> known = toDecide(outbox, "here");
        assertThat(known).hasSize(5);
        outbox.rulings().doubtful(known.get(2), "two-patients", "Two patients fit; say whose it is.", Optional.empty());
        outbox.rulings().setAside(known.get(3), "a patient card");
        for (int i : List.of(0, 1, 4)) {
            outbox.rulings().decided(known.get(i), "{\"decision\":1}", Optional.empty());
        }
        outbox.rulings().say(known.get(2).photo(), List.of(new Said("patient", "PG-0001", Optional.empty(), MORNING)));
        decideAll(outbox, "here");
    }

    private static void ship(Outbox outbox, Consignment consignment) throws OutboxException {
        Made object = object(consignment.photo());
        assertThat(outbox.consignments().made(consignment, List.of(object))).hasSize(1);
        assertThat(outbox.consignments()
                        .sending(consignment.photo(), consignment.revision(), object.sopInstance(), "one"))
                .isTrue();
        if (consignment.photo().equals(photo(1))) {
            outbox.consignments().refused(consignment.photo(), object.sopInstance(), 0xA900, "no", false);
        } else {
            outbox.consignments().stored(consignment.photo(), object.sopInstance(), 0, "");
        }
        outbox.consignments().release(consignment.photo(), "one");
    }

    private void promise(Outbox outbox) throws OutboxException {
        List<Reference> asked = outbox.commitments()
                .open("2.25.1", "ARCHIVE", 100, watch.instant().plus(Duration.ofMinutes(5)));
        assertThat(asked).hasSize(3);
        Reference lost = asked.stream()
                .filter(reference ->
                        reference.sopInstance().equals(object(photo(4)).sopInstance()))
                .findFirst()
                .orElseThrow();
        List<Reference> kept = new ArrayList<>(asked);
        kept.remove(lost);
        List<Failed> failed = List.of(new Failed(lost, Refusal.ABSENT, "the archive has no such object"));
        assertThat(outbox.commitments().report("2.25.9", "ARCHIVE", kept, failed))
                .isEqualTo(Taken.UNKNOWN);
        assertThat(outbox.commitments().report("2.25.1", "OTHER", kept, failed)).isEqualTo(Taken.UNKNOWN);
        assertThat(outbox.commitments().report("2.25.1", "ARCHIVE", kept, failed))
                .isEqualTo(Taken.RECORDED);
        assertThat(outbox.commitments().report("2.25.1", "ARCHIVE", asked, List.of()))
                .isEqualTo(Taken.REPEATED);
    }

    private static List<String> told(Outbox outbox) throws OutboxException {
        List<String> told = new ArrayList<>();
        told.add(outbox.overview().counts().toString());
        told.add(outbox.overview().objects().toString());
        told.add(outbox.overview().fate("/card").toString());
        told.add(outbox.overview().sources().toString());
        told.add(outbox.arrivals().sightings("/card").toString());
        told.add(outbox.overview().named("IMG_0001.JPG").toString());
        assertThat(outbox.overview().lies(photo(0), "COPY.JPG")).isTrue();
        assertThat(outbox.overview().lies(photo(0), "IMG_0001.JPG")).isFalse();
        assertThat(outbox.overview().leftBehind("1.JPG")).hasSize(1);
        told.add(outbox.overview().leftBehind("B/1.JPG").toString());
        told.add(outbox.overview().oldestWaiting().toString());
        for (int i = 0; i < 5; i++) {
            told.add(outbox.overview().history(photo(i)).toString());
        }
        return told;
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("two nodes with two threads each claim every photograph once")
    void claimedOnce(Kind kind) throws Exception {
        Database.Address address = kind.at(folder);
        int photos = 60;
        try (Outbox one = Outbox.open(address, watch);
                Outbox other = Outbox.open(address, watch)) {
            takeIn(one, photos, "shared");
            decideAll(one, "shared");
            one.nodes().alive("one", PROMISE);
            other.nodes().alive("other", PROMISE);
            List<String> claimed = Collections.synchronizedList(new ArrayList<>());
            ExecutorService threads = Executors.newFixedThreadPool(4);
            List<Callable<Integer>> work = List.of(
                    () -> claimAll(one, "one", claimed),
                    () -> claimAll(other, "other", claimed),
                    () -> claimAll(one, "one", claimed),
                    () -> claimAll(other, "other", claimed));
            for (Future<Integer> each : threads.invokeAll(work)) {
                assertThat(each.get()).isNotNegative();
            }
            threads.shutdown();
            assertThat(claimed).hasSize(photos).doesNotHaveDuplicates();
        }
    }

    private static int claimAll(Outbox outbox, String node, List<String> claimed) throws OutboxException {
        int taken = 0;
        List<Consignment> some = outbox.consignments().claim(node, "shared", 7);
        while (!some.isEmpty()) {
            some.forEach(each -> claimed.add(each.photo()));
            taken += some.size();
            some = outbox.consignments().claim(node, "shared", 7);
        }
        return taken;
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("what a dead node claimed is another's once its time is over, and not before")
    void deadNode(Kind kind) throws Exception {
        Database.Address address = kind.at(folder);
        try (Outbox one = Outbox.open(address, watch);
                Outbox other = Outbox.open(address, watch)) {
            takeIn(one, 3, "shared");
            decideAll(one, "shared");
            one.nodes().alive("one", PROMISE);
            other.nodes().alive("other", PROMISE);
            List<Consignment> first = one.consignments().claim("one", "shared", 10);
            assertThat(first).hasSize(3);
            assertThat(other.consignments().claim("other", "shared", 10)).isEmpty();
            one.nodes().alive("one", Duration.ZERO);
            assertThat(other.consignments().claim("other", "shared", 10)).hasSize(3);
            Made object = object(first.get(0).photo());
            one.consignments().made(first.get(0), List.of(object));
            assertThat(one.consignments()
                            .sending(first.get(0).photo(), first.get(0).revision(), object.sopInstance(), "one"))
                    .as("a node that was thought dead may not send what is another's now")
                    .isFalse();
        }
    }

    @Test
    @DisplayName("a living node keeps its claims though the clock of another is a day ahead")
    void clocksDiffer() throws Exception {
        Database.Address address = Kind.POSTGRESQL.at(folder);
        BenchClock ahead = new BenchClock();
        ahead.pass(Duration.ofDays(1));
        try (Outbox one = Outbox.open(address, watch);
                Outbox other = Outbox.open(address, ahead)) {
            takeIn(one, 3, "shared");
            decideAll(one, "shared");
            one.nodes().alive("one", PROMISE);
            assertThat(one.consignments().claim("one", "shared", 10)).hasSize(3);
            other.nodes().alive("other", PROMISE);
            assertThat(other.consignments().claim("other", "shared", 10)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("the same bytes under another name are decided again with both, and under the same name are not")
    void otherName(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), watch)) {
            takeIn(outbox, 1, "here");
            decideAll(outbox, "here");
            Arrival again =
                    new Arrival("/card", "DCIM/IMG_0000.JPG", photo(0), 1000, MORNING, "here", Optional.empty());
            assertThat(outbox.arrivals().record(again)).isFalse();
            assertThat(toDecide(outbox, "here")).isEmpty();
            assertThat(outbox.arrivals()
                            .record(new Arrival(
                                    "/other", "B/1.JPG", photo(0), 1000, MORNING, "here", Optional.empty())))
                    .isFalse();
            assertThat(outbox.overview().isDeciding("here")).isTrue();
            outbox.nodes().alive("one", PROMISE);
            assertThat(outbox.consignments().claim("one", "here", 1))
                    .as("not sent before it is decided again")
                    .isEmpty();
            Known known = toDecide(outbox, "here").get(0);
            assertThat(known.undecided()).isTrue();
            assertThat(known.photograph().otherNames()).containsExactly("B/1.JPG");
            outbox.arrivals()
                    .record(new Arrival("/other", "C/1.JPG", photo(0), 1000, MORNING, "here", Optional.empty()));
            outbox.rulings().decided(known, "{\"decision\":1}", Optional.empty());
            assertThat(outbox.overview().isDeciding("here"))
                    .as("decided without its latest name, so to be decided again")
                    .isTrue();
            decideAll(outbox, "here");
            assertThat(outbox.overview().isDeciding("here"))
                    .as("the other source, where it lies too, is to be heard")
                    .isTrue();
            Rounds.Round other = new Rounds.Round("/other", "here", "one");
            assertThat(outbox.rounds().begin(other)).isTrue();
            assertThat(outbox.rulings().toDecide("/other", "here", Photograph::name))
                    .containsExactly("B/1.JPG");
            outbox.rounds().end(other);
            assertThat(outbox.overview().isDeciding("here")).isFalse();
            assertThat(outbox.overview().named("1.JPG")).hasSize(1);
            assertThat(outbox.consignments().claim("one", "here", 1)).hasSize(1);
        }
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("a node with a folder of originals of its own is given nothing of another's folder")
    void ownFolders(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), watch)) {
            takeIn(outbox, 2, "room-1");
            decideAll(outbox, "room-1");
            outbox.nodes().alive("room-2", PROMISE);
            assertThat(outbox.consignments().claim("room-2", "room-2", 10)).isEmpty();
            assertThat(outbox.consignments().claim("room-1", "room-1", 10)).hasSize(2);
        }
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("one commitment transaction asks for each object once, though two nodes ask together")
    void askedOnce(Kind kind) throws Exception {
        Database.Address address = kind.at(folder);
        try (Outbox one = Outbox.open(address, watch);
                Outbox other = Outbox.open(address, watch)) {
            takeIn(one, 40, "here");
            decideAll(one, "here");
            one.nodes().alive("one", PROMISE);
            for (Consignment consignment : one.consignments().claim("one", "here", 100)) {
                if (!consignment.photo().equals(photo(1))) {
                    ship(one, consignment);
                }
            }
            ExecutorService threads = Executors.newFixedThreadPool(2);
            Instant deadline = watch.instant().plus(Duration.ofMinutes(5));
            List<Callable<List<Reference>>> work = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                Outbox outbox = i % 2 == 0 ? one : other;
                String transaction = "2.25.10" + i;
                work.add(() -> outbox.commitments().open(transaction, "ARCHIVE", 9, deadline));
            }
            List<Reference> asked = new ArrayList<>();
            for (Future<List<Reference>> each : threads.invokeAll(work)) {
                asked.addAll(each.get());
            }
            threads.shutdown();
            assertThat(asked).hasSize(39).doesNotHaveDuplicates();
            assertThat(one.overview().counts()).containsEntry(PhotoState.SENT, 39);
        }
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("what is committed stays committed, and nothing is sent, proven or discarded out of its turn")
    void outOfTurn(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), watch)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, 2, "here");
            assertThat(outbox.consignments().claim("one", "here", 9))
                    .as("undecided ones are not given out")
                    .isEmpty();
            decideAll(outbox, "here");
            List<Consignment> given = outbox.consignments().claim("one", "here", 9);
            Consignment first = given.get(0);
            Made object = object(first.photo());
            outbox.consignments().made(first, List.of(object));
            assertThat(outbox.consignments().sending(first.photo(), first.revision() + 1, object.sopInstance(), "one"))
                    .as("made of another decision")
                    .isFalse();
            assertThat(outbox.consignments().sending(first.photo(), first.revision(), object.sopInstance(), "other"))
                    .as("somebody else's")
                    .isFalse();
            assertThat(outbox.commitments().readBack(object.sopInstance()))
                    .as("a proof of what was never sent")
                    .isFalse();
            assertThat(outbox.commitments().waiting(9)).isEmpty();
            outbox.consignments().sending(first.photo(), first.revision(), object.sopInstance(), "one");
            assertThat(outbox.rulings().discard(first.photo(), new Said("discard", "yes", Optional.empty(), MORNING)))
                    .as("discarded while the archive may have it")
                    .isFalse();
            outbox.consignments().stored(first.photo(), object.sopInstance(), 0, "");
            assertThat(outbox.commitments().readBack(object.sopInstance())).isTrue();
            outbox.consignments().stored(first.photo(), object.sopInstance(), 0, "");
            outbox.consignments().refused(first.photo(), object.sopInstance(), 0xA700, "", false);
            outbox.consignments().absent(first.photo(), object.sopInstance(), "too late");
            assertThat(outbox.overview().counts())
                    .isEqualTo(java.util.Map.of(PhotoState.COMMITTED, 1, PhotoState.WAITING, 1));
        }
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("only copies of what is committed, and for long enough, may go")
    void copies(Kind kind) throws Exception {
        try (Outbox outbox = Outbox.open(kind.at(folder), watch)) {
            outbox.nodes().alive("one", PROMISE);
            takeIn(outbox, 3, "here");
            decideAll(outbox, "here");
            for (Consignment consignment : outbox.consignments().claim("one", "here", 2)) {
                ship(outbox, consignment);
            }
            String committed = photo(0);
            outbox.commitments().readBack(object(committed).sopInstance());
            Instant justNow = watch.instant();
            assertThat(outbox.copies().committedBefore(justNow, "here", 9)).isEmpty();
            watch.pass(Duration.ofDays(31));
            assertThat(outbox.copies().committedBefore(justNow.plusSeconds(1), "elsewhere", 9))
                    .isEmpty();
            assertThat(outbox.copies().committedBefore(justNow.plusSeconds(1), "here", 9))
                    .containsExactly(committed);
            assertThat(outbox.copies().letGo(photo(1))).as("refused for good").isFalse();
            assertThat(outbox.copies().letGo(photo(2))).as("still waiting").isFalse();
            assertThat(outbox.copies().letGo(committed)).isTrue();
            assertThat(outbox.arrivals().isKept(committed, "here")).isFalse();
            assertThat(outbox.arrivals().isKept(photo(2), "here")).isTrue();
        }
    }
}
