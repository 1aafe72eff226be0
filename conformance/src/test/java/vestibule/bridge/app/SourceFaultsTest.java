package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.settings.Intake;
import vestibule.conformance.fault.FaultDisk;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.ScanHash;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;

@DisplayName("Cards that are pulled out, files that are still being written, disks that fill up")
@Timeout(4 * 3600)
class SourceFaultsTest {

    private static final long STEP = 64 << 10;

    /** The edge of a photograph of this kind that has about four such steps. */
    private static final int LARGE = 640;

    private static final long RESERVE = 1_000_000;
    private static final Duration PATIENCE = Duration.ofMinutes(10);

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();

    @Test
    @DisplayName("a card pulled out anywhere and put back: everything is taken in once and whole")
    void pulled() throws IOException {
        int edge = Campaign.isFull("pulled") ? LARGE : 160;
        Path real = Photographs.card(folder.resolve("card"), 50, 7, edge);
        SourcePhotos source = Mixture.on(real);
        FaultDisk card = FaultDisk.over(real);
        List<Long> places = new ArrayList<>();
        for (long at = 0; at < bytes(real); at += STEP) {
            places.add(at);
        }
        java.util.Collections.shuffle(places, new Random(Campaign.seed()));
        places = places.subList(0, Math.min(places.size(), Campaign.count("pulled", 3, places.size())));
        for (long at : places) {
            Path home = folder.resolve("home-" + at);
            try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                    Bench bench = Bench.open(Bench.Site.of(home, card.root(), archive.address()), clock)) {
                bench.reader().look();
                clock.pass(Duration.ofSeconds(2));
                card.pullAfterReading(at);
                bench.reader().look();
                bench.round();
                assertThat(bench.account().leftovers())
                        .as("pulled at %d: leftovers", at)
                        .isEmpty();
                card.repair();
                assertThat(bench.untilIdle(12))
                        .as("pulled at %d: idle, %s", at, bench.counts())
                        .isTrue();
                Proof.allCommitted("pulled at " + at, bench, source, archive);
            }
            Proof.delete(home);
        }
        Campaign.figures(
                "pulled",
                "%d places, %d photographs each, %d bytes"
                        .formatted(places.size(), source.photos().size(), bytes(real)));
    }

    private static long bytes(Path folder) throws IOException {
        long sum = 0;
        try (var all = Files.walk(folder)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                sum += Files.size(file);
            }
        }
        return sum;
    }

    @Test
    @DisplayName("files that are written slowly: none is taken in before it is whole")
    void writers() throws IOException {
        int count = Campaign.count("writers", 60, 1000);
        Random random = Campaign.random("writers");
        Path card = Files.createDirectories(folder.resolve("card"));
        List<byte[]> whole = new ArrayList<>();
        Set<String> hashes = new HashSet<>();
        for (int i = 0; i < count; i++) {
            whole.add(Photographs.jpeg(i, 48));
            hashes.add(ScanHash.sha256(whole.get(i)));
        }
        int[] written = new int[count];
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Bench bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), clock)) {
            boolean busy = true;
            while (busy) {
                busy = false;
                for (int i = 0; i < count; i++) {
                    byte[] all = whole.get(i);
                    // Now and then a writer rests, so that length and time stand still in the middle of a file
                    if (written[i] < all.length && random.nextInt(3) > 0) {
                        written[i] = Math.min(all.length, written[i] + 1 + random.nextInt(all.length));
                        Files.write(card.resolve("IMG_%04d.JPG".formatted(i)), Arrays.copyOf(all, written[i]));
                    }
                    busy |= written[i] < all.length;
                }
                bench.takeIn();
                assertThat(hashes)
                        .as("what was taken in")
                        .containsAll(bench.account().states().keySet());
            }
            assertThat(bench.untilIdle(20)).as("idle, %s", bench.counts()).isTrue();
            SourcePhotos source = Mixture.on(card);
            Proof.allCommitted("slow writers", bench, source, archive);
            Campaign.figures("writers", "%d, %s".formatted(count, Proof.verdict(bench, source, archive)));
        }
    }

    @Test
    @DisplayName("a picture cut short that ends like a whole one stays on the card, with a sentence, until it is whole")
    void cutShort() throws IOException {
        Path card = Files.createDirectories(folder.resolve("card"));
        byte[] whole = Photographs.jpeg(1, 64);
        byte[] cut = Arrays.copyOf(whole, whole.length * 2 / 3);
        cut[cut.length - 2] = (byte) 0xFF;
        cut[cut.length - 1] = (byte) 0xD9;
        Files.write(card.resolve("IMG_0001.JPG"), cut);
        Files.write(card.resolve("IMG_0002.JPG"), Photographs.jpeg(2, 64));
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Bench bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), clock)) {
            bench.untilIdle(3);
            assertThat(bench.account().states()).hasSize(1);
            assertThat(bench.keeping().outbox().arrivals().sightings(card.toString()))
                    .filteredOn(sighting -> sighting.photo().isEmpty())
                    .singleElement()
                    .satisfies(sighting ->
                            assertThat(sighting.sentence().orElseThrow()).startsWith("it is no whole JPEG: "));
            Files.write(card.resolve("IMG_0001.JPG"), whole);
            assertThat(bench.untilIdle(3)).isTrue();
            Proof.allCommitted("cut short", bench, Mixture.on(card), archive);
        }
    }

    @Test
    @DisplayName("many files that come one after another into a watched folder are all found")
    void many() throws Exception {
        int count = Campaign.count("many", 200, 5000);
        Path card = Files.createDirectories(folder.resolve("card"));
        List<byte[]> all = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            all.add(Photographs.jpeg(i, 16));
        }
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Bench bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), clock)) {
            Duration came = whileWatched(bench, card, () -> {
                write(card, all.subList(0, count / 2), 0);
                // The others come while the watch is at work
                await(() -> found(bench) > 0);
                write(card, all.subList(count / 2, count), count / 2);
                await(() -> found(bench) == count);
            });
            assertThat(bench.untilIdle(12)).as("idle, %s", bench.counts()).isTrue();
            SourcePhotos source = Mixture.on(card);
            assertThat(source.photos()).hasSize(count);
            Proof.allCommitted("many", bench, source, archive);
            Campaign.figures(
                    "many",
                    "%d, written and found in %d ms, %s"
                            .formatted(count, came.toMillis(), Proof.verdict(bench, source, archive)));
        }
    }

    private interface Doing {
        void run() throws Exception;
    }

    private interface Condition {
        boolean holds() throws IOException;
    }

    /** Does that while the folder is watched as the service does it, and says how long it took. */
    private static Duration whileWatched(Bench bench, Path card, Doing doing) throws Exception {
        Intake intake = new Intake(List.of(card), Duration.ofMillis(50), Duration.ofSeconds(1), PATIENCE, List.of());
        SourceReader reader = bench.keeping().reader(card, bench.keeping().originals(), intake, Clock.systemUTC());
        SourceWatch watch = new SourceWatch(card, reader, intake, Clock.systemUTC(), () -> {});
        Thread watching = new Thread(watch, "source");
        watching.start();
        long start = System.nanoTime();
        try {
            doing.run();
            return Duration.ofNanos(System.nanoTime() - start);
        } finally {
            watch.stop();
            watching.join();
        }
    }

    /** As a camera does, a hundred files a folder. */
    private static void write(Path card, List<byte[]> files, int first) throws IOException {
        int number = first;
        for (byte[] file : files) {
            Path images = Files.createDirectories(card.resolve("%dOKULR".formatted(100 + number / 100)));
            Files.write(images.resolve("IMG_%04d.JPG".formatted(number % 100 + 1)), file);
            number++;
        }
    }

    private static int found(Bench bench) throws IOException {
        return bench.counts().values().stream().mapToInt(Integer::intValue).sum();
    }

    private static void await(Condition condition) throws IOException {
        long end = System.nanoTime() + PATIENCE.toNanos();
        while (!condition.holds() && System.nanoTime() - end < 0) {
            LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
        }
        assertThat(condition.holds()).isTrue();
    }

    @Test
    @DisplayName("a disk that fills up at any level: taking in stops at the reserve and goes on by itself")
    void full() throws IOException {
        Path card = Photographs.card(folder.resolve("card"), 12, 5, 64);
        SourcePhotos source = Mixture.on(card);
        int levels = Campaign.count("full", 5, 100);
        long needed = bytes(card);
        for (int i = 0; i < levels; i++) {
            FaultDisk disk = FaultDisk.over(folder.resolve("disk-" + i));
            try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                    Bench bench =
                            Bench.open(Bench.Site.of(disk.root().resolve("home"), card, archive.address()), clock)) {
                disk.usableSpace(RESERVE + needed * i / levels);
                bench.takeIn();
                assertThat(bench.account().states().size())
                        .as("level %d", i)
                        .isLessThan(source.photos().size());
                assertThat(bench.account().leftovers())
                        .as("level %d: leftovers", i)
                        .isEmpty();
                disk.repair();
                assertThat(bench.untilIdle(12))
                        .as("level %d: idle, %s", i, bench.counts())
                        .isTrue();
                Proof.allCommitted("full at level " + i, bench, source, archive);
            }
            Proof.delete(disk.folder());
        }
        Campaign.figures(
                "full",
                "%d levels, %d photographs each"
                        .formatted(levels, source.photos().size()));
    }
}
