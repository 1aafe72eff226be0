package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.delivery.Drain;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Outbox;

/** Keeps one drain going: a pass whenever something is due, and a pause that grows while the archive is out of reach. */
final class Delivering {

    private static final Logger LOG = LoggerFactory.getLogger(Delivering.class);

    private final Outbox outbox;
    private final Originals originals;
    private final Drain drain;
    private final Optional<ReadingBack> readingBack;
    private final Clock clock;
    private final Backoff backoff;
    private volatile int failures;
    private volatile Instant notBefore = Instant.MIN;
    private volatile @Nullable String trouble;
    private volatile Instant troubledAt = Instant.MIN;

    /**
     * @param readingBack the proof, where it is not storage commitment
     */
    Delivering(
            Outbox outbox,
            Originals originals,
            Drain drain,
            Optional<ReadingBack> readingBack,
            Clock clock,
            Backoff backoff) {
        this.outbox = outbox;
        this.originals = originals;
        this.drain = drain;
        this.readingBack = readingBack;
        this.clock = clock;
        this.backoff = backoff;
    }

    /** Runs a pass if anything is due and the archive is not being left in peace; true if a pass was run. */
    boolean step() throws IOException {
        outbox.commitments().expire();
        boolean proofDue = !outbox.commitments().waiting(1).isEmpty();
        boolean due = outbox.consignments().isDue(originals.place()) || (proofDue && readingBack.isEmpty());
        if (!proofDue && !outbox.consignments().isAnyLeft(originals.place())) {
            trouble = null;
        }
        if (clock.instant().isBefore(notBefore)) {
            return false;
        }
        if (due) {
            judge(drain.run());
        }
        boolean readBack =
                readingBack.isPresent() && failures == 0 && readingBack.get().step() > 0;
        return due || readBack;
    }

    private void judge(Drain.Pass pass) {
        if (pass instanceof Drain.Pass.Interrupted interrupted) {
            failures = interrupted.parcels() > 0 ? 1 : failures + 1;
            Duration pause = backoff.after(failures);
            notBefore = clock.instant().plus(pause);
            trouble = interrupted.sentence();
            troubledAt = clock.instant();
            LOG.warn("delivery stopped, next attempt in {} s: {}", pause.toSeconds(), interrupted.sentence());
        } else {
            failures = 0;
            trouble = null;
        }
    }

    /** How often in a row the archive could not be reached. */
    int failures() {
        return failures;
    }

    /**
     * Why nothing can be delivered, at the latest attempt; it names no patient.
     *
     * @param lastStored when something was delivered last
     */
    Optional<String> trouble(Instant lastStored) {
        return Optional.ofNullable(trouble)
                .filter(sentence -> !lastStored.isAfter(troubledAt))
                .map(sentence -> "nothing can be delivered: " + sentence);
    }

    void stop() {
        drain.stop();
    }

    void cut() {
        drain.cut();
    }
}
