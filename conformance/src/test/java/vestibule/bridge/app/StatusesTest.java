package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rulings;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Oracle;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;

@DisplayName("Whatever status an archive answers, no photograph is lost or called what it is not")
@Timeout(7200)
class StatusesTest {

    private static final int AT_A_TIME = 64;

    /** Each look lists the whole card, so that one of all statuses would take hours. */
    private static final int IN_ONE_HOME = 2048;

    @TempDir
    Path folder;

    /** PS3.4 B.2.3 and PS3.7 C: success, and the warnings, with which an object is stored. */
    private static boolean stored(int status) {
        return status == 0 || status >>> 12 == 0xB || status == 0x0001 || status == 0x0107 || status == 0x0116;
    }

    /** Answers each status once, in order, and keeps what the status says is stored; after them all is well. */
    private static final class EachOnce implements Script {
        private final List<Integer> statuses;
        private final Set<String> seen = new HashSet<>();

        EachOnce(List<Integer> statuses) {
            this.statuses = statuses;
        }

        @Override
        public synchronized Reception store(HeldObject object, int number) {
            if (!seen.add(object.bytes()) || seen.size() > statuses.size()) {
                return Reception.SUCCESS;
            }
            int status = statuses.get(seen.size() - 1);
            return Reception.status(status, stored(status));
        }

        synchronized boolean areAllTold() {
            return seen.size() >= statuses.size();
        }
    }

    @Test
    @DisplayName("each status once, and success if it is asked again")
    void statuses() throws IOException {
        List<Integer> statuses = new ArrayList<>();
        for (int status = 0; status <= 0xFFFF; status++) {
            statuses.add(status);
        }
        Collections.shuffle(statuses, new Random(Campaign.seed()));
        statuses = new ArrayList<>(statuses.subList(0, Campaign.count("statuses", 96, 0x10000)));
        statuses.addAll(
                List.of(0x0000, 0xB000, 0xB006, 0xB007, 0xA700, 0xA900, 0xC000, 0x0110, 0x0111, 0x0122, 0xFE00));
        Map<PhotoState, Integer> all = new EnumMap<>(PhotoState.class);
        for (int from = 0; from < statuses.size(); from += IN_ONE_HOME) {
            List<Integer> some = statuses.subList(from, Math.min(statuses.size(), from + IN_ONE_HOME));
            oneHome(folder.resolve("from-" + from), some)
                    .forEach((state, count) -> all.merge(state, count, Integer::sum));
        }
        Campaign.figures("statuses", "%d, %s, all zeros".formatted(statuses.size(), all));
    }

    /** All of them by one home and one archive; how many photographs are in each state then. */
    private static Map<PhotoState, Integer> oneHome(Path here, List<Integer> statuses) throws IOException {
        int photos = 0;
        EachOnce script = new EachOnce(statuses);
        BenchClock clock = new BenchClock();
        Path card = Files.createDirectories(here.resolve("card"));
        Map<PhotoState, Integer> counts;
        try (ScriptedArchive archive = ScriptedArchive.start(script);
                Bench bench = Bench.open(Bench.Site.of(here.resolve("home"), card, archive.address()), clock)) {
            while (!script.areAllTold()) {
                for (int i = 0; i < AT_A_TIME; i++, photos++) {
                    Files.write(card.resolve("IMG_%06d.JPG".formatted(photos)), Photographs.jpeg(photos, 16));
                }
                assertThat(bench.untilIdle(12)).as("idle, %s", bench.counts()).isTrue();
            }
            SourcePhotos source = Mixture.on(card);
            var verdict = Proof.verdict(bench, source, archive);
            assertThat(verdict.clean()).as(verdict.toString()).isTrue();
            counts = bench.counts();
            assertThat(counts.values().stream().mapToInt(Integer::intValue).sum())
                    .isEqualTo(photos);
            noneWhole(source, bench.account(), archive.held().values());
        }
        Proof.delete(here);
        return counts;
    }

    @Test
    @DisplayName(
            "of a mirror's picture the one as recorded is refused for good: nothing of it is filed before a person says so")
    void halfRefused() throws IOException {
        BenchClock clock = new BenchClock();
        Path card = Files.createDirectories(folder.resolve("card"));
        Files.write(card.resolve("IMG_0002.JPG"), Photographs.jpeg(2, 32));
        SourcePhotos source = Mixture.on(card);
        String photo = source.photos().keySet().iterator().next();
        try (ScriptedArchive archive = ScriptedArchive.start(new EachOnce(List.of(0xA900)));
                Bench bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), clock)) {
            assertThat(bench.untilIdle(12)).as("idle, %s", bench.counts()).isTrue();
            assertThat(bench.counts()).isEqualTo(Map.of(PhotoState.REJECTED, 1));
            assertThat(archive.arrivals()).isEqualTo(1);
            assertThat(archive.held()).isEmpty();
            bench.keeping()
                    .outbox()
                    .rulings()
                    .retry(photo, new Rulings.Said("retry", "yes", Optional.of("an assistant"), clock.instant()));
            assertThat(bench.untilIdle(12)).as("idle, %s", bench.counts()).isTrue();
            Proof.allCommitted("after the word", bench, source, archive);
            assertThat(archive.arrivals()).isEqualTo(3);
        }
    }

    /** Of a photograph that is not called committed the archive has less than all objects, or somebody is asked in vain. */
    private static void noneWhole(SourcePhotos source, Oracle.Account account, Collection<HeldObject> held) {
        for (SourcePhotos.SourcePhoto photo : source.photos().values()) {
            Optional<HeldObject> recorded = held.stream()
                    .filter(object -> object.scan().equals(Optional.of(photo.scan())))
                    .findAny();
            boolean corrected = held.stream()
                    .anyMatch(object -> object.source().isPresent()
                            && object.source().equals(recorded.map(HeldObject::sopInstance)));
            boolean whole = recorded.isPresent() && (corrected || photo.objects() == 1);
            assertThat(account.states().get(photo.photo()).equals(PhotoState.COMMITTED.word()))
                    .as("%s is committed", photo)
                    .isEqualTo(whole);
        }
    }
}
