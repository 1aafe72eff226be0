package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
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
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.FaultProxy;
import vestibule.conformance.fault.LinkFault;
import vestibule.conformance.fault.LinkFault.Direction;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;

@DisplayName("A link that is cut, stalls, or swallows answers, wherever it happens")
@Timeout(1800)
class LinkFaultsTest {

    private static final int ROUNDS = 12;

    /** One of them is of the other patient, and one was taken by mirror. */
    private static final int EACH = 3;

    private static final Duration WAIT = Duration.ofMillis(400);
    private static final Duration MORE = Duration.ofSeconds(2);

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();
    private Path card;
    private ScriptedArchive archive;
    private FaultProxy proxy;
    private Bench bench;
    private long next;

    @BeforeEach
    void start() throws IOException {
        card = Files.createDirectories(folder.resolve("card"));
        archive = ScriptedArchive.start(Script.HEALTHY);
        proxy = FaultProxy.before(archive.address(), FaultProxy.Plan.HEALTHY);
        java.net.InetSocketAddress near =
                new java.net.InetSocketAddress(java.net.InetAddress.getLoopbackAddress(), proxy.port());
        bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, near).withDeadlines(WAIT), clock);
    }

    @AfterEach
    void stop() throws IOException {
        bench.close();
        proxy.close();
        archive.close();
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
        tryAll("edges", cuts, 24);
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
        tryAll("offsets", cuts, 16);
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
        tryAll("eaten", eaten, 16);
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

    @Test
    @DisplayName(
            "a stall in any state of the protocol: the worker is free soon after its deadline, and nothing is left open")
    void stalls() throws IOException {
        List<Long> back = edges(Direction.BACK);
        List<Long> there = edges(Direction.THERE);
        List<LinkFault> places = new ArrayList<>();
        places.add(new LinkFault.Stall(Direction.THERE, 0));
        places.add(new LinkFault.Stall(Direction.THERE, 3));
        places.add(new LinkFault.Stall(Direction.BACK, 0));
        places.add(new LinkFault.Stall(Direction.BACK, 3));
        for (int i = 0; i < 4; i++) {
            places.add(new LinkFault.Stall(Direction.THERE, there.get(i)));
            places.add(new LinkFault.Stall(Direction.BACK, back.get(i) + i % 2));
        }
        int times = Campaign.count("stalls", 1, 20);
        for (int i = 0; i < times; i++) {
            for (LinkFault place : places) {
                given(place);
                bench.takeIn();
                bench.decide();
                long before = System.nanoTime();
                bench.deliver();
                assertThat(Duration.ofNanos(System.nanoTime() - before))
                        .as("%s: time until the worker was free", place)
                        .isLessThan(WAIT.multipliedBy(4).plus(MORE));
                comesThrough("stall " + place);
            }
        }
        judged("stalls", times * places.size());
        assertThat(archive.associations()).isZero();
        assertThat(Thread.getAllStackTraces().keySet())
                .noneMatch(thread -> thread.getName().equals("name look-up") && thread.isAlive());
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
