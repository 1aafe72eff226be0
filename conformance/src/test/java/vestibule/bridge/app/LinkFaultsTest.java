package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.FaultProxy;
import vestibule.conformance.fault.LinkFault;
import vestibule.conformance.fault.LinkFault.Direction;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.ScanHash;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;
import vestibule.conformance.link.Leftovers;

@DisplayName("A link that is cut, stalls, or swallows answers, wherever it happens")
@Timeout(1800)
class LinkFaultsTest {

    private static final int ROUNDS = 12;

    /** One of them is of the other patient, and one was taken by mirror. */
    private static final int EACH = 3;

    private static final Duration WAIT = Duration.ofMillis(400);
    /** What a pass of delivery gives a report to come on its association. */
    private static final Duration REPORT_WAIT = Duration.ofSeconds(3);

    private static final Duration MORE = Duration.ofSeconds(2);

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();
    private Path card;
    private ScriptedArchive archive;
    private FaultProxy proxy;
    private Bench bench;
    private long next;
    private Leftovers leftovers;

    /** The first socket that a Java closes makes it open a pair of its own, which stays. */
    @BeforeAll
    static void firstSocket() throws IOException {
        try (ServerSocket listening = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                Socket near = new Socket(InetAddress.getLoopbackAddress(), listening.getLocalPort())) {
            assertThat(near.isConnected()).isTrue();
        }
    }

    @BeforeEach
    void start() throws IOException {
        leftovers = new Leftovers();
        card = Files.createDirectories(folder.resolve("card"));
        archive = ScriptedArchive.start(Script.HEALTHY);
        proxy = FaultProxy.before(archive.address(), FaultProxy.Plan.HEALTHY);
        InetSocketAddress near = new InetSocketAddress(InetAddress.getLoopbackAddress(), proxy.port());
        bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, near).withDeadlines(WAIT), clock);
    }

    @AfterEach
    void stop() throws IOException {
        bench.close();
        proxy.close();
        archive.close();
        leftovers.assertNothingIsLeft();
    }

    /** New photographs on the card, and these faults on the next connection only. */
    private void given(LinkFault... faults) throws IOException {
        for (int i = 0; i < EACH; i++) {
            Files.write(card.resolve("IMG_%06d.JPG".formatted(next)), Photographs.jpeg(next, 40));
            next++;
        }
        int from = proxy.connections();
        proxy.plan(connection -> connection == from ? List.of(faults) : List.of());
    }

    private void comesThrough(String what) throws IOException {
        assertThat(bench.untilIdle(ROUNDS))
                .as("%s: idle, %s", what, bench.counts())
                .isTrue();
    }

    private void judged(String what, int tries) throws IOException {
        SourcePhotos source = Mixture.on(card);
        Proof.allCommitted(what, bench, source, archive);
        Campaign.figures(what, "%d, %s".formatted(tries, Proof.verdict(bench, source, archive)));
    }

    private List<Long> edges(Direction direction) throws IOException {
        given();
        int connection = proxy.connections();
        comesThrough("healthy");
        return proxy.edges(connection, direction);
    }

    @Test
    @DisplayName("cut one byte before, at and behind every edge of a PDU, both ways")
    void everyEdge() throws IOException {
        List<LinkFault> cuts = new ArrayList<>();
        for (Direction direction : Direction.values()) {
            Set<Long> places = new LinkedHashSet<>(List.of(0L, 1L));
            for (long edge : edges(direction)) {
                places.addAll(List.of(edge - 1, edge, edge + 1));
            }
            places.forEach(place -> cuts.add(new LinkFault.Cut(direction, place)));
            places.forEach(place -> cuts.add(new LinkFault.Reset(direction, place)));
        }
        tryAll("edges", cuts, 18);
    }

    @Test
    @DisplayName("cut anywhere, both ways")
    void anywhere() throws IOException {
        Random random = Campaign.random("offsets");
        List<LinkFault> cuts = new ArrayList<>();
        for (Direction direction : Direction.values()) {
            List<Long> edges = edges(direction);
            int end = edges.get(edges.size() - 1).intValue();
            for (int i = 0; i < 500; i++) {
                cuts.add(new LinkFault.Cut(direction, random.nextInt(end)));
            }
        }
        tryAll("offsets", cuts, 12);
    }

    @Test
    @DisplayName("answers that are swallowed after the work was done")
    void eaten() throws IOException {
        Random random = Campaign.random("eaten");
        int answers = edges(Direction.BACK).size();
        List<LinkFault> eaten = new ArrayList<>();
        for (int i = 0; i < 500; i++) {
            eaten.add(new LinkFault.EatAnswer(random.nextInt(answers)));
        }
        tryAll("eaten", eaten, 12);
    }

    private void tryAll(String what, List<LinkFault> faults, int ordinary) throws IOException {
        List<LinkFault> some = new ArrayList<>(faults);
        Collections.shuffle(some, new Random(Campaign.seed()));
        some = some.subList(0, Math.min(some.size(), Campaign.count(what, ordinary, some.size())));
        for (LinkFault fault : some) {
            given(fault);
            comesThrough(what + ": " + fault);
        }
        judged(what, some.size());
    }

    /** A state of the protocol in which nothing more comes: what came before it, each way, in a delivery of three photographs, the last a pair. */
    private enum Standstill {
        OPENED(Direction.THERE, 0, 0, WAIT),
        IN_ASSOCIATION_REQUEST(Direction.THERE, 0, 3, WAIT),
        ASSOCIATION_AWAITED(Direction.BACK, 0, 0, WAIT),
        IN_ASSOCIATION_ANSWER(Direction.BACK, 0, 3, WAIT),
        IN_STORE_REQUEST(Direction.THERE, 1, 7, WAIT),
        IN_OBJECT(Direction.THERE, 2, 500, WAIT),
        STORE_AWAITED(Direction.BACK, 1, 0, WAIT),
        IN_STORE_ANSWER(Direction.BACK, 1, 9, WAIT),
        QUERY_AWAITED(Direction.BACK, 2, 0, WAIT),
        BETWEEN_MATCH_AND_END(Direction.BACK, 4, 0, WAIT),
        SECOND_STORE_AWAITED(Direction.BACK, 5, 0, WAIT),
        IN_SECOND_OF_A_PAIR(Direction.THERE, 12, 500, WAIT),
        IN_COMMITMENT_REQUEST(Direction.THERE, 14, 11, WAIT),
        COMMITMENT_AWAITED(Direction.BACK, 11, 0, WAIT),
        REPORT_AWAITED(Direction.BACK, 12, 0, REPORT_WAIT),
        IN_REPORT(Direction.BACK, 13, 11, WAIT),
        CONFIRMING_REPORT(Direction.THERE, 15, 0, WAIT),
        IN_RELEASE(Direction.THERE, 16, 3, WAIT),
        RELEASE_AWAITED(Direction.BACK, 14, 0, WAIT);

        private final Direction direction;
        private final int pdu;
        private final int bytes;
        private final Duration deadline;

        Standstill(Direction direction, int pdu, int bytes, Duration deadline) {
            this.direction = direction;
            this.pdu = pdu;
            this.bytes = bytes;
            this.deadline = deadline;
        }

        LinkFault fault() {
            return new LinkFault.StallInPdu(direction, pdu, bytes);
        }
    }

    @Test
    @DisplayName(
            "a stall in any state of the protocol: the worker is free soon after its deadline, and nothing is left open")
    void stalls() throws IOException {
        // What the places above are counted in
        assertThat(edges(Direction.THERE)).hasSize(17);
        assertThat(edges(Direction.BACK)).hasSize(15);
        int times = Campaign.count("stalls", 1, 20);
        Duration worst = Duration.ZERO;
        for (int i = 0; i < times; i++) {
            for (Standstill place : Standstill.values()) {
                Duration late = late(place);
                // A machine with much else to do may be late once; a worker that waits too long is late again
                if (late.compareTo(MORE) >= 0) {
                    late = late(place);
                }
                assertThat(late)
                        .as("%s: how long after its deadline the worker was free", place)
                        .isLessThan(MORE);
                worst = late.compareTo(worst) > 0 ? late : worst;
            }
        }
        judged("stalls", times * Standstill.values().length);
        Campaign.figures("stalls", "free %d ms after the deadline at the latest".formatted(worst.toMillis()));
    }

    /** How long after its deadline the worker is free of a stall there; nothing is left open, and everything comes through later. */
    private Duration late(Standstill place) throws IOException {
        Leftovers before = new Leftovers();
        int connection = proxy.connections();
        while (!isLastOfItsThree(next + EACH - 1)) {
            next += EACH;
        }
        given(place.fault());
        bench.takeIn();
        bench.decide();
        long start = System.nanoTime();
        bench.deliver();
        Duration taken = Duration.ofNanos(System.nanoTime() - start);
        before.assertNoSocketIsLeft();
        assertThat(proxy.edges(connection, place.direction))
                .as("%s: what went through before", place)
                .hasSize(place.pdu);
        comesThrough("stall " + place);
        return taken.minus(place.deadline);
    }

    /** What was taken in at one time is delivered in the order of the hashes; the places above count on the pair being last. */
    private static boolean isLastOfItsThree(long pair) throws IOException {
        String hash = hash(pair);
        return hash(pair - 1).compareTo(hash) < 0 && hash(pair - 2).compareTo(hash) < 0;
    }

    private static String hash(long number) throws IOException {
        return ScanHash.sha256(Photographs.jpeg(number, 40));
    }

    @Test
    @DisplayName("a day without an archive")
    void outage() throws IOException {
        int photos = Campaign.count("outage", 18, 501);
        for (int i = 0; i < photos / EACH; i++) {
            given();
        }
        proxy.refuse(true);
        Duration day = Duration.ofHours(24);
        int attempts = 0;
        for (Duration gone = Duration.ZERO; gone.compareTo(day) < 0; gone = gone.plusMinutes(2)) {
            bench.round();
            attempts++;
            clock.pass(Duration.ofMinutes(2));
        }
        assertThat(archive.arrivals()).isZero();
        proxy.refuse(false);
        comesThrough("after a day");
        assertThat(archive.arrivals()).isEqualTo(Mixture.objects(0, photos));
        judged("outage", photos);
        assertThat(attempts).isEqualTo(720);
    }
}
