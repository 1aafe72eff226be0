package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.Rulings;
import vestibule.dicom.net.AssociationException;

/** Has photographs decided, source by source, and records what is ruled. */
final class DecidingDesk {

    private static final Logger LOG = LoggerFactory.getLogger(DecidingDesk.class);

    private final Rulings rulings;
    private final Originals originals;
    private final Deciding deciding;
    private final Clock clock;
    private final Backoff backoff;

    DecidingDesk(Rulings rulings, Originals originals, Deciding deciding, Clock clock, Backoff backoff) {
        this.rulings = rulings;
        this.originals = originals;
        this.deciding = deciding;
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
        int ruled = 0;
        for (String source : rulings.sources(originals.place())) {
            if (ready.test(source)) {
                ruled += decide(source);
            }
        }
        return ruled;
    }

    private int decide(String source) throws IOException {
        List<Rulings.Known> known = rulings.toDecide(source, originals.place());
        try {
            Deciding.Round round =
                    deciding.decide(known.stream().map(this::candidate).toList());
            record(known, round.rulings());
            rulings.sittings(
                    source,
                    known,
                    round.sittings().stream().map(SittingState::kept).toList());
            if (rulings.attempts(source) > 0) {
                rulings.resumed(source);
            }
            return round.rulings().size();
        } catch (OutboxException e) {
            throw e;
        } catch (IOException e) {
            int attempts = rulings.attempts(source) + 1;
            LOG.warn(
                    "the photographs of a source could not be decided, attempt {}: {}",
                    attempts,
                    e instanceof AssociationException
                            ? e.getMessage()
                            : e.getClass().getSimpleName());
            rulings.putOff(source, clock.instant().plus(backoff.after(attempts)));
            return 0;
        }
    }

    private Deciding.Candidate candidate(Rulings.Known known) {
        return new Deciding.Candidate(
                known.photo(),
                originals.path(known.photo()),
                known.name(),
                known.otherNames(),
                known.source(),
                known.fileTime(),
                known.takenIn(),
                known.decision(),
                known.filed(),
                known.said().stream()
                        .map(said -> new Deciding.Statement(said.about(), said.answer(), said.by(), said.at()))
                        .toList());
    }

    private void record(List<Rulings.Known> known, List<Deciding.Ruling> all) throws IOException {
        Map<String, Rulings.Known> open = new LinkedHashMap<>();
        known.forEach(each -> open.put(each.photo(), each));
        for (Deciding.Ruling ruling : all) {
            Rulings.Known basis = open.remove(ruling.photo());
            if (basis == null) {
                LOG.error("{}: ruled on without being asked for, or twice", ruling.photo());
            } else if (ruling instanceof Deciding.Decided decided) {
                rulings.decided(basis, decided.decision(), decided.takesBack());
            } else if (ruling instanceof Deciding.Doubtful doubtful) {
                rulings.doubtful(basis, doubtful.reason(), doubtful.message(), doubtful.proposal());
            } else if (ruling instanceof Deciding.Aside aside) {
                rulings.setAside(basis, aside.why());
            } else {
                throw new AssertionError(ruling);
            }
        }
        for (Rulings.Known unmentioned : open.values()) {
            if (unmentioned.undecided() && unmentioned.decision().isPresent()) {
                rulings.stands(unmentioned);
            }
        }
    }
}
