package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Consignments;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.Rounds;
import vestibule.bridge.outbox.Rulings;
import vestibule.bridge.outbox.Withdrawals;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.view.ViewReason;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.AssociationException;

/** Has photographs decided, source by source, and records what is ruled. */
final class DecidingDesk {

    private static final Logger LOG = LoggerFactory.getLogger(DecidingDesk.class);

    private static final Set<String> OF_FILED = Set.of(
            Reason.FILED_UNDER_ANOTHER_PATIENT.code(),
            Reason.FILED_AND_IN_DOUBT.code(),
            ViewReason.FILED_AS_ANOTHER_VIEW.code());

    /** How often a round says that it goes on. */
    private static final Duration GOES_ON = Duration.ofSeconds(10);

    private final Rulings rulings;
    private final Consignments consignments;
    private final Rounds rounds;
    private final Withdrawals withdrawals;
    private final Originals originals;
    private final Deciding deciding;
    private final String node;
    private final String holder;
    private final Clock clock;
    private final Backoff backoff;
    private final Map<String, String> troubles = new ConcurrentHashMap<>();
    private final Set<String> toldBusy = new HashSet<>();
    private boolean leftToAnother;
    private boolean bore;

    /** @param node whose home it is; what a process of it left that is no more is taken up at once */
    DecidingDesk(Outbox outbox, Originals originals, Deciding deciding, String node, Clock clock, Backoff backoff) {
        this.rulings = outbox.rulings();
        this.consignments = outbox.consignments();
        this.rounds = outbox.rounds();
        this.withdrawals = outbox.withdrawals();
        this.originals = originals;
        this.deciding = deciding;
        this.node = node;
        this.holder = node + "/" + ProcessHandle.current().pid();
        this.clock = clock;
        this.backoff = backoff;
    }

    /**
     * Decides what is due.
     *
     * @param ready whether a source is to be decided now; one that is being read may have the evidence still to come
     * @return how many photographs were ruled on
     */
    int step(Predicate<String> ready) throws IOException {
        bore = false;
        int ruled = once(ready);
        // What the cards of one source say may be about photographs of one that was decided before it
        return bore ? ruled + once(ready) : ruled;
    }

    private int once(Predicate<String> ready) throws IOException {
        int ruled = 0;
        List<String> open = rulings.open(originals.place());
        troubles.keySet().retainAll(open);
        toldBusy.retainAll(open);
        for (String source : rulings.sources(originals.place())) {
            if (ready.test(source)) {
                ruled += decide(source);
            }
        }
        return ruled;
    }

    /** Whether a source was left to another process, which is deciding it. */
    boolean leftToAnother() {
        return leftToAnother;
    }

    /** Why photographs cannot be decided, by the latest attempt at each source; names no patient. */
    List<String> troubles() {
        return troubles.values().stream().distinct().sorted().toList();
    }

    private int decide(String source) throws IOException {
        Rounds.Round round = new Rounds.Round(source, originals.place(), holder);
        if (!begin(round)) {
            if (toldBusy.add(source)) {
                LOG.info("the photographs of a source are being decided by another process");
            }
            leftToAnother = true;
            return 0;
        }
        Photographs photographs = new Photographs(round);
        try {
            deciding.decide(photographs);
            rounds.end(round);
            troubles.remove(source);
            toldBusy.remove(source);
            if (rulings.attempts(source) > 0) {
                rulings.resumed(source);
            }
        } catch (OvertakenException e) {
            LOG.warn("{}", e.getMessage());
            leftToAnother = true;
        } catch (OutboxException e) {
            throw e;
        } catch (IOException e) {
            putOff(
                    round,
                    e instanceof AssociationException || e instanceof DirectoryException
                            ? String.valueOf(e.getMessage())
                            : "a file or folder cannot be read (%s)"
                                    .formatted(e.getClass().getSimpleName()));
        } catch (RuntimeException | Error e) {
            // The other sources go on
            LOG.error("deciding: a fault of ours", e);
            putOff(round, "a fault of this program, which its log shows; please report it");
        }
        return photographs.ruled;
    }

    private boolean begin(Rounds.Round round) throws IOException {
        if (rounds.begin(round)) {
            return true;
        }
        Optional<String> other = rounds.holder(round);
        if (other.isEmpty() || !isGone(other.get())) {
            return false;
        }
        rounds.leave(new Rounds.Round(round.source(), round.place(), other.get()));
        return rounds.begin(round);
    }

    /** Whether a process of this home holds it that is no more; of other computers only the time tells. */
    private boolean isGone(String other) {
        int parted = other.lastIndexOf('/');
        if (parted < 0 || !other.substring(0, parted).equals(node)) {
            return false;
        }
        try {
            long process = Long.parseLong(other.substring(parted + 1));
            return ProcessHandle.of(process).filter(ProcessHandle::isAlive).isEmpty();
        } catch (NumberFormatException noProcess) {
            return false;
        }
    }

    private void putOff(Rounds.Round round, String why) throws IOException {
        String source = round.source();
        rounds.leave(round);
        int attempts = rulings.attempts(source) + 1;
        LOG.warn("the photographs of a source could not be decided, attempt {}: {}", attempts, why);
        troubles.put(source, "photographs cannot be decided: " + why);
        rulings.putOff(source, clock.instant().plus(backoff.after(attempts)));
    }

    /** A round was silent for so long that another process took it up. */
    private static final class OvertakenException extends IOException {
        private static final long serialVersionUID = 1;

        OvertakenException() {
            super("another process took up deciding the photographs of a source, so this one leaves it");
        }
    }

    /** The photographs of one source as the outbox has them. */
    private final class Photographs implements Deciding.Photographs {

        private final Rounds.Round round;
        private final Map<String, Rulings.Known> open = new HashMap<>();
        private int ruled;
        private Instant lastGoing;

        Photographs(Rounds.Round round) {
            this.round = round;
            this.lastGoing = clock.instant();
        }

        @Override
        public List<Deciding.Photograph> all() throws IOException {
            originals.requireThere();
            return rulings.toDecide(round.source(), round.place(), DecidingDesk::brief);
        }

        @Override
        public List<Deciding.Unread> unread() throws IOException {
            return rounds.unread(round).stream()
                    .map(file -> new Deciding.Unread(file.name(), file.medium(), file.fileTime()))
                    .toList();
        }

        @Override
        public void bear(Map<String, Optional<String>> words) throws IOException {
            rounds.bear(round, words);
            bore |= !words.isEmpty();
        }

        @Override
        public Path original(String photo) {
            return originals.path(photo);
        }

        @Override
        public List<Deciding.Candidate> candidates(List<Deciding.Photograph> some) throws IOException {
            Map<String, Deciding.Photograph> brief = new HashMap<>();
            some.forEach(photograph -> brief.put(photograph.photo(), photograph));
            List<Deciding.Candidate> candidates = new ArrayList<>();
            Set<String> withdrawn = withdrawals.ofWhatStands(brief.keySet());
            for (Rulings.Known known :
                    rulings.known(some.stream().map(DecidingDesk::kept).toList(), Optional.of(round))) {
                open.put(known.photo(), known);
                candidates.add(new Deciding.Candidate(
                        Objects.requireNonNull(brief.get(known.photo())),
                        original(known.photo()),
                        known.decision(),
                        known.filed(),
                        known.heard(),
                        withdrawn.contains(known.photo())));
            }
            return candidates;
        }

        @Override
        public boolean isOfAnother(Uid study, Patient patient) throws IOException {
            return consignments.in(study.value()).stream()
                    .anyMatch(place -> !patient.isCalled(place.patient(), place.issuer()));
        }

        @Override
        public void goOn() throws IOException {
            Instant now = clock.instant();
            if (now.isAfter(lastGoing.plus(GOES_ON))) {
                if (!rounds.goesOn(round)) {
                    throw new OvertakenException();
                }
                lastGoing = now;
            }
        }

        @Override
        public void record(List<Deciding.Candidate> about, Deciding.Round outcome) throws IOException {
            if (!rounds.goesOn(round)) {
                throw new OvertakenException();
            }
            Map<String, Rulings.Known> unmentioned = new LinkedHashMap<>();
            for (Deciding.Candidate candidate : about) {
                Rulings.Known known = open.remove(candidate.photo());
                if (known != null) {
                    unmentioned.put(candidate.photo(), known);
                }
            }
            rulings.sittings(
                    round.source(),
                    about.stream().map(Deciding.Candidate::photo).toList(),
                    outcome.sittings().stream().map(SittingState::kept).toList());
            for (Deciding.Ruling ruling : outcome.rulings()) {
                Rulings.Known basis = unmentioned.remove(ruling.photo());
                if (basis == null) {
                    LOG.error("{}: ruled on without being asked for, or twice", ruling.photo());
                } else {
                    rule(basis, ruling);
                    ruled++;
                }
            }
            for (Rulings.Known silent : unmentioned.values()) {
                unmentioned(silent, outcome.agreeing().contains(silent.photo()));
            }
        }
    }

    private void unmentioned(Rulings.Known known, boolean agrees) throws IOException {
        if (known.decision().isEmpty()) {
            return;
        }
        if (agrees && (known.undecided() || known.doubted())) {
            rulings.stands(known);
        } else if (known.undecided()) {
            rulings.looked(known);
        }
    }

    private void rule(Rulings.Known basis, Deciding.Ruling ruling) throws IOException {
        if (ruling instanceof Deciding.Decided decided) {
            rulings.decided(basis, decided.decision(), decided.takesBack());
        } else if (ruling instanceof Deciding.Doubtful doubtful) {
            if (OF_FILED.contains(doubtful.reason())) {
                rulings.doubtfulOfFiled(basis, doubtful.reason(), doubtful.message());
            } else {
                rulings.doubtful(basis, doubtful.reason(), doubtful.message(), doubtful.proposal());
            }
        } else if (ruling instanceof Deciding.Aside aside) {
            rulings.setAside(basis, aside.why());
        } else {
            throw new AssertionError(ruling);
        }
    }

    private static Deciding.Photograph brief(Rulings.Photograph kept) {
        return new Deciding.Photograph(
                kept.photo(),
                kept.name(),
                kept.otherNames(),
                kept.source(),
                kept.folder(),
                kept.medium(),
                kept.fileTime(),
                kept.takenIn(),
                kept.said().stream()
                        .map(said -> new Deciding.Statement(said.about(), said.answer(), said.by(), said.at()))
                        .toList(),
                new Deciding.Elsewhere(
                        kept.elsewhere().decided(),
                        kept.elsewhere().borne(),
                        kept.elsewhere().says(),
                        kept.elsewhere().heard()));
    }

    private static Rulings.Photograph kept(Deciding.Photograph brief) {
        return new Rulings.Photograph(
                brief.photo(),
                brief.name(),
                brief.otherNames(),
                brief.source(),
                brief.folder(),
                brief.medium(),
                brief.fileTime(),
                brief.takenIn(),
                brief.statements().stream()
                        .map(said -> new Rulings.Said(said.about(), said.value(), said.by(), said.at()))
                        .toList(),
                new Rulings.Elsewhere(
                        brief.elsewhere().decided(),
                        brief.elsewhere().borne(),
                        brief.elsewhere().says(),
                        brief.elsewhere().heard()));
    }
}
