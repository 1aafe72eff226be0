package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.Cut;
import vestibule.conformance.fault.DiskOperation;
import vestibule.conformance.fault.FaultDisk;
import vestibule.conformance.fault.FaultDisk.Failure;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;
import vestibule.dicom.data.Uid;

@DisplayName("Power cuts and failing disks, at every operation of a run of three photographs")
class PowerCutsTest {

    private static final int ROUNDS = 12;

    @TempDir
    Path folder;

    /** What a cut left: the disk, and the archive as it was at that moment. */
    private record Left(DiskOperation at, Cut cut, Path home, Map<Uid, HeldObject> held, Set<Uid> promised) {}

    @Test
    @DisplayName("whatever a cut takes away, the next start makes good")
    void cuts() throws IOException {
        Path card = Photographs.card(folder.resolve("card"), 3, 1, 48);
        SourcePhotos source = Mixture.on(card);
        List<Left> all = new ArrayList<>();
        int operations;
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY)) {
            FaultDisk disk = FaultDisk.over(folder.resolve("disk"));
            disk.watch(operation -> {
                for (Cut cut : Cut.values()) {
                    Path home = Files.createDirectories(folder.resolve(operation.number() + "-" + cut));
                    disk.layOut(home, cut, operation);
                    all.add(new Left(operation, cut, home, archive.held(), archive.promised()));
                }
            });
            BenchClock clock = new BenchClock();
            try (Bench bench = Bench.open(site(disk.root(), card, archive), clock)) {
                assertThat(bench.untilIdle(3)).isTrue();
            }
            operations = disk.log().size();
        }
        assertThat(operations).isGreaterThan(40);
        List<Left> tried = sample(all, Campaign.count("cuts", 12, all.size()));
        for (Left left : tried) {
            recovers(left, card, source);
        }
        Campaign.figures(
                "cuts",
                "%d of %d cuts at %d operations, all made good".formatted(tried.size(), all.size(), operations));
    }

    private static Bench.Site site(Path disk, Path card, ScriptedArchive archive) {
        return Bench.Site.of(disk.resolve("home"), card, archive.address());
    }

    private static <T> List<T> sample(List<T> all, int count) {
        List<T> some = new ArrayList<>(all);
        java.util.Collections.shuffle(some, new Random(Campaign.seed()));
        return some.subList(0, Math.min(count, some.size()));
    }

    private static void recovers(Left left, Path card, SourcePhotos source) throws IOException {
        String what = "cut %s at %s".formatted(left.cut(), left.at());
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY)) {
            archive.continueFrom(left.held(), left.promised());
            BenchClock clock = new BenchClock();
            clock.pass(java.time.Duration.ofMinutes(1));
            try (Bench bench = Bench.open(site(left.home(), card, archive), clock)) {
                assertThat(bench.untilIdle(ROUNDS))
                        .as("%s: idle, %s", what, bench.counts())
                        .isTrue();
                Proof.allCommitted(what, bench, source, archive);
            }
        }
        Proof.delete(left.home());
    }

    @Test
    @DisplayName("an operation that fails once, or from then on until the disk is repaired, loses nothing")
    void failures() throws IOException {
        Path card = Photographs.card(folder.resolve("card"), 3, 1, 48);
        SourcePhotos source = Mixture.on(card);
        int operations = operationsOf(card);
        List<Failing> cases = new ArrayList<>();
        for (int at = 0; at < operations; at++) {
            for (Failure failure : Failure.values()) {
                cases.add(new Failing(at, failure, false));
                cases.add(new Failing(at, failure, true));
            }
        }
        List<Failing> tried = sample(cases, Campaign.count("failures", 12, cases.size()));
        for (Failing one : tried) {
            survives(one.operation(), one.failure(), one.forEver(), card, source);
        }
        Campaign.figures("failures", "%d of %d, at %d operations".formatted(tried.size(), cases.size(), operations));
    }

    /**
     * A disk that fails.
     *
     * @param operation the one it fails at
     * @param forEver whether it stays so until it is repaired
     */
    private record Failing(int operation, Failure failure, boolean forEver) {}

    private int operationsOf(Path card) throws IOException {
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY)) {
            FaultDisk disk = FaultDisk.over(folder.resolve("counted"));
            try (Bench bench = Bench.open(site(disk.root(), card, archive), new BenchClock())) {
                bench.untilIdle(3);
            }
            return disk.log().size();
        }
    }

    private void survives(int at, Failure how, boolean forEver, Path card, SourcePhotos source) throws IOException {
        String what = "%s at %d, %s".formatted(how, at, forEver ? "for ever" : "once");
        FaultDisk disk = FaultDisk.over(folder.resolve("failing"));
        disk.failAt(at, how, forEver);
        BenchClock clock = new BenchClock();
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY)) {
            Bench.Site site = site(disk.root(), card, archive);
            boolean same = tryOnce(site, clock);
            disk.repair();
            try (Bench bench = Bench.open(site, clock)) {
                assertThat(bench.untilIdle(ROUNDS))
                        .as("%s (%s): idle, %s", what, same, bench.counts())
                        .isTrue();
                Proof.allCommitted(what, bench, source, archive);
            }
        }
        Proof.delete(disk.folder());
    }

    /** Runs on the failing disk for a while, as a service does that takes each step again. */
    private static boolean tryOnce(Bench.Site site, BenchClock clock) throws IOException {
        Bench bench;
        try {
            bench = Bench.open(site, clock);
        } catch (IOException startFailed) {
            assertThat(startFailed).hasMessageNotContaining("PG-000");
            return false;
        }
        boolean went = true;
        for (int i = 0; i < 3; i++) {
            for (Step step : List.<Step>of(bench::takeIn, bench::decide, bench::deliver)) {
                try {
                    step.run();
                } catch (IOException stepFailed) {
                    assertThat(stepFailed).hasMessageNotContaining("PG-000");
                    went = false;
                }
            }
            clock.pass(java.time.Duration.ofMinutes(7));
        }
        bench.die();
        return went;
    }

    private interface Step {
        void run() throws IOException;
    }
}
