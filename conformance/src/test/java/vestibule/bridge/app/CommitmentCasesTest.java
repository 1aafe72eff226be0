package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.SopReference;

@DisplayName("Whatever an archive says to the first commitment request, with a restart after it or without")
@Timeout(300)
class CommitmentCasesTest {

    private static final int PHOTOS = 4;

    /** The second photograph was taken by mirror. */
    private static final int OBJECTS = PHOTOS + 1;

    /** How many ended well. */
    private static final AtomicInteger ENDED = new AtomicInteger();

    private static final AtomicInteger TRIED = new AtomicInteger();

    @TempDir
    Path folder;

    /** What an archive does about the first request; later ones get the truth. */
    private enum Case {
        TRUTH_AT_ONCE,
        TRUTH_ON_OWN_ASSOCIATION,
        TRUTH_LATE,
        TRUTH_LATE_TWICE,
        TRUTH_TWICE,
        TRUTH_ON_BOTH_WAYS,
        WRONG_TRANSACTION,
        WRONG_TRANSACTION_THEN_TRUTH,
        WRONG_TRANSACTION_LATE,
        HALF_FAILED_ABSENT,
        RECORDED_FAILED_ABSENT,
        HALF_UNMENTIONED,
        NONE_MENTIONED,
        ALL_FAILED_PROCESSING,
        ALL_FAILED_RESOURCES,
        ALL_FAILED_ABSENT,
        ALL_FAILED_DUPLICATE_TRANSACTION,
        ALL_FAILED_UNKNOWN_REASON,
        ALL_FAILED_CLASS_NOT_SUPPORTED,
        ALL_FAILED_CONFLICT,
        FAILURES_UNDER_TYPE_ONE,
        NO_FAILURES_UNDER_TYPE_TWO,
        BOTH_COMMITTED_AND_FAILED,
        OBJECT_NOBODY_ASKED_FOR,
        OTHER_SOP_CLASS,
        UNKNOWN_EVENT_TYPE,
        REFUSED,
        REFUSED_FOR_GOOD,
        BROKEN_OFF,
        SILENCE,
        FORGOTTEN_BEFORE
    }

    private static final Uid ELSEWHERE = new Uid("2.25.4711");

    private static final class First implements Script {
        private final Case what;

        /** The objects of the pair that filing a mirror's picture makes. */
        private final List<Uid> recorded = new CopyOnWriteArrayList<>();

        private final List<Uid> corrected = new CopyOnWriteArrayList<>();

        First(Case what) {
            this.what = what;
        }

        @Override
        public Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
            return number == 0 ? first(request, held) : Promise.truth(request, held, Way.SAME_ASSOCIATION);
        }

        /** The archive of that case lost the objects before it was asked. */
        @Override
        public Reception store(HeldObject object, int number) {
            object.source().ifPresent(source -> {
                recorded.add(source);
                corrected.add(object.sopInstance());
            });
            return what == Case.FORGOTTEN_BEFORE && number < OBJECTS ? Reception.FORGOTTEN : Reception.SUCCESS;
        }

        /** Those of a pair apart from each other: halves then cut a photograph in two. */
        private List<SopReference> pairApart(List<SopReference> held) {
            return held.stream()
                    .sorted(Comparator.comparing(object -> recorded.contains(object.sopInstance())
                            ? 0
                            : corrected.contains(object.sopInstance()) ? 2 : 1))
                    .toList();
        }

        private Promise first(CommitmentRequest request, List<SopReference> having) {
            List<SopReference> held = pairApart(having);
            Uid own = request.transaction();
            Report truth = Promise.truthfulReport(request, held, Way.SAME_ASSOCIATION);
            Report late = Promise.truthfulReport(request, held, Way.LATE);
            List<SopReference> half = held.subList(0, held.size() / 2);
            List<SopReference> rest = held.subList(held.size() / 2, held.size());
            return switch (what) {
                case TRUTH_AT_ONCE, FORGOTTEN_BEFORE -> Promise.reports(List.of(truth));
                case TRUTH_ON_OWN_ASSOCIATION -> Promise.truth(request, held, Way.OWN_ASSOCIATION);
                case TRUTH_LATE -> Promise.reports(List.of(late));
                case TRUTH_LATE_TWICE -> Promise.reports(List.of(late, late));
                case TRUTH_TWICE -> Promise.reports(List.of(truth, truth));
                case TRUTH_ON_BOTH_WAYS -> Promise.reports(List.of(truth, late));
                case WRONG_TRANSACTION -> one(ELSEWHERE, 1, held, List.of(), 0, Way.SAME_ASSOCIATION);
                case WRONG_TRANSACTION_LATE -> one(ELSEWHERE, 1, held, List.of(), 0, Way.LATE);
                case WRONG_TRANSACTION_THEN_TRUTH ->
                    Promise.reports(List.of(new Report(ELSEWHERE, 1, held, List.of(), 0, Way.SAME_ASSOCIATION), truth));
                case HALF_FAILED_ABSENT -> one(own, 2, half, rest, 0x0112, Way.SAME_ASSOCIATION);
                case RECORDED_FAILED_ABSENT ->
                    one(own, 2, held.subList(1, held.size()), held.subList(0, 1), 0x0112, Way.SAME_ASSOCIATION);
                case HALF_UNMENTIONED -> one(own, 1, half, List.of(), 0, Way.SAME_ASSOCIATION);
                case NONE_MENTIONED -> one(own, 1, List.of(), List.of(), 0, Way.SAME_ASSOCIATION);
                case ALL_FAILED_PROCESSING -> one(own, 2, List.of(), held, 0x0110, Way.SAME_ASSOCIATION);
                case ALL_FAILED_RESOURCES -> one(own, 2, List.of(), held, 0x0213, Way.SAME_ASSOCIATION);
                case ALL_FAILED_ABSENT -> one(own, 2, List.of(), held, 0x0112, Way.SAME_ASSOCIATION);
                case ALL_FAILED_DUPLICATE_TRANSACTION -> one(own, 2, List.of(), held, 0x0131, Way.SAME_ASSOCIATION);
                case ALL_FAILED_UNKNOWN_REASON -> one(own, 2, List.of(), held, 0x7777, Way.SAME_ASSOCIATION);
                case ALL_FAILED_CLASS_NOT_SUPPORTED -> one(own, 2, List.of(), held, 0x0122, Way.SAME_ASSOCIATION);
                case ALL_FAILED_CONFLICT -> one(own, 2, List.of(), held, 0x0119, Way.SAME_ASSOCIATION);
                case FAILURES_UNDER_TYPE_ONE -> one(own, 1, half, rest, 0x0110, Way.SAME_ASSOCIATION);
                case NO_FAILURES_UNDER_TYPE_TWO -> one(own, 2, held, List.of(), 0, Way.SAME_ASSOCIATION);
                case BOTH_COMMITTED_AND_FAILED -> one(own, 2, held, rest, 0x0110, Way.SAME_ASSOCIATION);
                case OBJECT_NOBODY_ASKED_FOR ->
                    one(
                            own,
                            1,
                            List.of(new SopReference(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, ELSEWHERE)),
                            List.of(),
                            0,
                            Way.SAME_ASSOCIATION);
                case OTHER_SOP_CLASS -> one(own, 1, otherClass(held), List.of(), 0, Way.SAME_ASSOCIATION);
                case UNKNOWN_EVENT_TYPE -> one(own, 3, held, List.of(), 0, Way.SAME_ASSOCIATION);
                case REFUSED -> Promise.refused(0x0213);
                case REFUSED_FOR_GOOD -> Promise.refused(0x0124);
                case BROKEN_OFF -> Promise.brokenOff();
                case SILENCE -> Promise.silence();
            };
        }

        private static Promise one(
                Uid transaction,
                int type,
                List<SopReference> committed,
                List<SopReference> failed,
                int reason,
                Way way) {
            return Promise.reports(List.of(new Report(transaction, type, committed, failed, reason, way)));
        }

        private static List<SopReference> otherClass(List<SopReference> held) {
            return held.stream()
                    .map(object -> new SopReference(Uids.SECONDARY_CAPTURE_IMAGE_STORAGE, object.sopInstance()))
                    .toList();
        }
    }

    static Stream<Arguments> cases() {
        List<Arguments> all = new ArrayList<>();
        Case[] cases = Case.values();
        // An ordinary run tries every other case, and those every other one with a restart; the seed says which
        boolean full = Campaign.count("commitments", 0, 1) == 1;
        for (Case each : cases) {
            for (boolean restart : new boolean[] {false, true}) {
                boolean tried = Math.floorMod(each.name().hashCode() + Campaign.seed(), 2) == 0;
                if (full || (tried && restart == (each.name().length() % 2 == 0))) {
                    all.add(Arguments.of(each, restart));
                }
            }
        }
        return all.stream();
    }

    @AfterAll
    static void figures() throws IOException {
        Campaign.figures("commitments", "%d of %d ended well".formatted(ENDED.get(), TRIED.get()));
    }

    @ParameterizedTest
    @MethodSource("cases")
    @DisplayName("ends well, and nothing is called committed before it is")
    void endsWell(Case what, boolean restart) throws IOException {
        TRIED.incrementAndGet();
        Path card = Photographs.card(folder.resolve("card"), PHOTOS, what.name().hashCode(), 24);
        SourcePhotos source = Mixture.on(card);
        BenchClock clock = new BenchClock();
        try (ScriptedArchive archive = ScriptedArchive.start(new First(what))) {
            Bench.Site site = Bench.Site.of(folder.resolve("home"), card, archive.address());
            Bench bench = Bench.open(site, clock);
            try {
                archive.reportTo(bench.listen());
                bench.takeIn();
                bench.decide();
                bench.deliver();
                nothingFalse(what, bench, source, archive);
                if (restart) {
                    bench.die();
                    clock.pass(Duration.ofMinutes(1));
                    bench = Bench.open(site, clock);
                    archive.reportTo(bench.listen());
                }
                archive.deliverLate();
                nothingFalse(what, bench, source, archive);
                // A report that never comes is waited for until its deadline, an hour
                assertThat(bench.untilIdle(30))
                        .as("%s: idle, %s", what, bench.counts())
                        .isTrue();
                Proof.judgedClean(what.toString(), bench, source, archive);
                ends(what, bench);
                ENDED.incrementAndGet();
            } finally {
                bench.close();
            }
        }
    }

    private static void nothingFalse(Case what, Bench bench, SourcePhotos source, ScriptedArchive archive)
            throws IOException {
        assertThat(Proof.verdict(bench, source, archive).falselyCommitted())
                .as("%s: falsely committed", what)
                .isEmpty();
    }

    private static void ends(Case what, Bench bench) throws IOException {
        boolean forGood = what == Case.ALL_FAILED_CLASS_NOT_SUPPORTED || what == Case.ALL_FAILED_CONFLICT;
        String expected = forGood ? "needs-attention" : "committed";
        assertThat(bench.account().states().values())
                .as("%s, one of %s", what, Arrays.toString(Case.values()))
                .hasSize(PHOTOS)
                .allMatch(expected::equals);
    }
}
