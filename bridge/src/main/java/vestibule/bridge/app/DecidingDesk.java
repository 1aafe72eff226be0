package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
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
    private volatile Optional<String> trouble = Optional.empty();

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

    /** Why photographs cannot be decided, at the latest attempt; it names no patient. */
    Optional<String> trouble() {
        return trouble;
    }

    private int decide(String source) throws IOException {
        Photographs photographs = new Photographs(source);
        try {
            deciding.decide(photographs);
            trouble = Optional.empty();
            if (rulings.attempts(source) > 0) {
                rulings.resumed(source);
            }
        } catch (OutboxException e) {
            throw e;
        } catch (IOException e) {
            int attempts = rulings.attempts(source) + 1;
            String why = e instanceof AssociationException
                    ? String.valueOf(e.getMessage())
                    : e.getClass().getSimpleName();
            LOG.warn("the photographs of a source could not be decided, attempt {}: {}", attempts, why);
            trouble = Optional.of("photographs cannot be decided: " + why);
            rulings.putOff(source, clock.instant().plus(backoff.after(attempts)));
        }
        return photographs.ruled;
    }

    /** The photographs of one source as the outbox has them. */
    private final class Photographs implements Deciding.Photographs {

        private final String source;
        private final Map<String, Rulings.Known> open = new HashMap<>();
        private int ruled;

        Photographs(String source) {
            this.source = source;
        }

        @Override
        public List<Deciding.Photograph> all() throws IOException {
            return rulings.toDecide(source, originals.place(), DecidingDesk::brief);
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
            for (Rulings.Known known :
                    rulings.known(some.stream().map(DecidingDesk::kept).toList())) {
                open.put(known.photo(), known);
                candidates.add(new Deciding.Candidate(
                        Objects.requireNonNull(brief.get(known.photo())),
                        original(known.photo()),
                        known.decision(),
                        known.filed()));
            }
            return candidates;
        }

        @Override
        public void record(List<Deciding.Candidate> about, Deciding.Round round) throws IOException {
            Map<String, Rulings.Known> unmentioned = new LinkedHashMap<>();
            for (Deciding.Candidate candidate : about) {
                Rulings.Known known = open.remove(candidate.photo());
                if (known != null) {
                    unmentioned.put(candidate.photo(), known);
                }
            }
            rulings.sittings(
                    source,
                    about.stream().map(Deciding.Candidate::photo).toList(),
                    round.sittings().stream().map(SittingState::kept).toList());
            for (Deciding.Ruling ruling : round.rulings()) {
                Rulings.Known basis = unmentioned.remove(ruling.photo());
                if (basis == null) {
                    LOG.error("{}: ruled on without being asked for, or twice", ruling.photo());
                } else {
                    rule(basis, ruling);
                    ruled++;
                }
            }
            for (Rulings.Known stands : unmentioned.values()) {
                if (stands.undecided() && stands.decision().isPresent()) {
                    rulings.stands(stands);
                }
            }
        }
    }

    private void rule(Rulings.Known basis, Deciding.Ruling ruling) throws IOException {
        if (ruling instanceof Deciding.Decided decided) {
            rulings.decided(basis, decided.decision(), decided.takesBack());
        } else if (ruling instanceof Deciding.Doubtful doubtful) {
            rulings.doubtful(basis, doubtful.reason(), doubtful.message(), doubtful.proposal());
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
                kept.fileTime(),
                kept.takenIn(),
                kept.said().stream()
                        .map(said -> new Deciding.Statement(said.about(), said.answer(), said.by(), said.at()))
                        .toList());
    }

    private static Rulings.Photograph kept(Deciding.Photograph brief) {
        return new Rulings.Photograph(
                brief.photo(),
                brief.name(),
                brief.otherNames(),
                brief.source(),
                brief.fileTime(),
                brief.takenIn(),
                brief.statements().stream()
                        .map(said -> new Rulings.Said(said.about(), said.value(), said.by(), said.at()))
                        .toList());
    }
}
