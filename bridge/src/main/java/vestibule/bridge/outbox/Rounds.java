package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/**
 * Rounds of decisions. A patient card that comes late changes whose the photographs after it are, so one process at a time decides a
 * source, what it begins is brought to its end by it or another, and until then nothing near is sent.
 */
public final class Rounds {

    /** Photographs further apart than this, by the times they were taken and by their files' times as well, do not bear on one another. */
    static final long SITTING = Duration.ofHours(12).toMillis();

    /**
     * As a condition on a row of {@code photo}: nothing that bears on it is still to be decided, in its own source or in another of the
     * same originals where its bytes lie. For originals elsewhere there may be nobody who decides any more. Binds {@code :sitting}.
     */
    static final String NOTHING_TO_DECIDE_NEAR = nothingNear("file_time", "r.earliest", "r.latest")
            + "\nAND "
            + nothingNear("captured", "r.first_captured", "r.last_captured");

    /** Each time for itself, for each has an index of its own. */
    private static String nothingNear(String time, String first, String last) {
        return """
            NOT EXISTS (SELECT 1 FROM photo u WHERE u.undecided = 1 AND u.kept = 1 AND u.source = photo.source
              AND u.place = photo.place AND u.{time} BETWEEN photo.{time} - :sitting AND photo.{time} + :sitting)
            AND NOT EXISTS (SELECT 1 FROM witness w WHERE w.undecided = 1 AND w.source = photo.source
              AND w.place = photo.place AND w.{time} BETWEEN photo.{time} - :sitting AND photo.{time} + :sitting)
            AND NOT EXISTS (SELECT 1 FROM deciding_round r WHERE r.source = photo.source AND r.place = photo.place
              AND photo.{time} BETWEEN {first} - :sitting AND {last} + :sitting)
            AND NOT EXISTS (SELECT 1 FROM witness here WHERE here.photo = photo.hash AND here.place = photo.place AND (
              EXISTS (SELECT 1 FROM photo u WHERE u.undecided = 1 AND u.kept = 1 AND u.source = here.source
                AND u.place = here.place AND u.{time} BETWEEN here.{time} - :sitting AND here.{time} + :sitting)
              OR EXISTS (SELECT 1 FROM witness w WHERE w.undecided = 1 AND w.source = here.source
                AND w.place = here.place AND w.{time} BETWEEN here.{time} - :sitting AND here.{time} + :sitting)
              OR EXISTS (SELECT 1 FROM deciding_round r WHERE r.source = here.source AND r.place = here.place
                AND here.{time} BETWEEN {first} - :sitting AND {last} + :sitting)))""".replace("{time}", time).replace("{first}", first).replace("{last}", last);
    }

    /** Longer than any portion of photographs takes to be read. */
    private static final Duration HELD = Duration.ofMinutes(2);

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Rounds(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /**
     * A round.
     *
     * @param holder who is at it; the same name again takes over at once, as a service does that was killed
     */
    public record Round(String source, String place, String holder) {}

    /**
     * Begins a round about a source, or takes one up that was left.
     *
     * @return false if another process is at it
     */
    public boolean begin(Round round) throws OutboxException {
        return database.inTransaction(handle -> {
            long now = database.sharedMoment(handle, clock);
            Optional<Span> span = span(handle, round.source(), round.place());
            return span.isPresent()
                    && handle.createUpdate("""
                            INSERT INTO deciding_round (source, place, holder, held_until,
                              earliest, latest, first_captured, last_captured)
                            VALUES (:source, :place, :holder, :until, :earliest, :latest, :firstCaptured, :lastCaptured)
                            ON CONFLICT (source, place) DO UPDATE SET holder = :holder, held_until = :until,
                              earliest = :earliest, latest = :latest,
                              first_captured = :firstCaptured, last_captured = :lastCaptured
                            WHERE deciding_round.holder = :holder OR deciding_round.held_until < :now""")
                                    .bind("source", round.source())
                                    .bind("place", round.place())
                                    .bind("holder", round.holder())
                                    .bind("until", now + HELD.toMillis())
                                    .bindMap(span.get().values())
                                    .bind("now", now)
                                    .execute()
                            == 1;
        });
    }

    /**
     * The times of what is to be decided.
     *
     * @param earliest of the first file, and so on
     * @param firstCaptured when the first of it was taken, and so on
     */
    record Span(long earliest, long latest, long firstCaptured, long lastCaptured) {

        Map<String, Long> values() {
            return Map.of(
                    "earliest",
                    earliest,
                    "latest",
                    latest,
                    "firstCaptured",
                    firstCaptured,
                    "lastCaptured",
                    lastCaptured);
        }
    }

    /**
     * A file that could not be taken in, and may be a patient card.
     *
     * @param medium on which of the memory cards that lay in the source one after another
     */
    public record Unread(String name, int medium, Instant fileTime) {}

    /** The files that could not be taken in and are near in time to what a round is about, in the order of names. */
    public List<Unread> unread(Round round) throws OutboxException {
        return database.reading(handle -> span(handle, round.source(), round.place())
                .map(span -> Witnesses.unread(
                        handle, round.source(), round.place(), Reach.of(handle, round.source(), round.place(), span)))
                .orElse(List.of()));
    }

    /**
     * Records what the cards of a source say of photographs that another brought; each of them is then decided again where it belongs.
     *
     * @param words by their hashes; empty where nothing is said any more
     */
    public void bear(Round round, Map<String, Optional<String>> words) throws OutboxException {
        database.inTransaction(handle -> {
            boolean held = isHeld(handle, round, database.dialect());
            if (held) {
                ledger.lockAll(handle, words.keySet());
                words.forEach((photo, says) -> {
                    if (Witnesses.bear(handle, round.source(), photo, says)) {
                        ledger.settle(handle, photo, clock.millis(), "the cards of another source say whose it is");
                    }
                });
            }
            return held;
        });
    }

    /** The same once more, for what arrived since a round began; the round covers it from now on. */
    static Optional<Span> widened(Handle handle, String source, String place) {
        Optional<Span> span = span(handle, source, place);
        span.ifPresent(known -> handle.createUpdate("""
                        UPDATE deciding_round SET earliest = :earliest, latest = :latest,
                          first_captured = :firstCaptured, last_captured = :lastCaptured
                        WHERE source = :source AND place = :place""")
                .bindMap(known.values())
                .bind("source", source)
                .bind("place", place)
                .execute());
        // The round holds what is near them from now on, until it is through
        handle.createUpdate("""
                        UPDATE witness SET undecided = 0 WHERE undecided = 1 AND source = :source AND place = :place
                          AND EXISTS (SELECT 1 FROM deciding_round r WHERE r.source = :source AND r.place = :place)""").bind("source", source).bind("place", place).execute();
        return span;
    }

    /** Whether a round is still held by whoever began it; until the transaction ends nobody else can take it up. */
    static boolean isHeld(Handle handle, Round round, Dialect dialect) {
        return handle.createQuery("""
                        SELECT source FROM deciding_round
                        WHERE source = :source AND place = :place AND holder = :holder""" + dialect.lock())
                .bind("source", round.source())
                .bind("place", round.place())
                .bind("holder", round.holder())
                .mapTo(String.class)
                .findOne()
                .isPresent();
    }

    /** The times of the photographs to be decided, of what turned up beside them, and of those of a round that was left. */
    private static Optional<Span> span(Handle handle, String source, String place) {
        return handle.createQuery("""
                        SELECT MIN(earliest) AS earliest, MAX(latest) AS latest, MIN(first_captured) AS first_captured,
                          MAX(last_captured) AS last_captured, COUNT(earliest) AS spans FROM (
                          SELECT MIN(file_time) AS earliest, MAX(file_time) AS latest, MIN(captured) AS first_captured,
                            MAX(captured) AS last_captured FROM photo
                          WHERE source = :source AND place = :place AND undecided = 1 AND kept = 1
                          UNION ALL
                          SELECT MIN(file_time), MAX(file_time), MIN(captured), MAX(captured) FROM witness
                          WHERE source = :source AND place = :place AND undecided = 1
                          UNION ALL
                          SELECT earliest, latest, first_captured, last_captured FROM deciding_round
                          WHERE source = :source AND place = :place) AS both_spans""")
                .bind("source", source)
                .bind("place", place)
                .map((result, context) -> result.getInt("spans") == 0
                        ? Optional.<Span>empty()
                        : Optional.of(new Span(
                                result.getLong("earliest"),
                                result.getLong("latest"),
                                result.getLong("first_captured"),
                                result.getLong("last_captured"))))
                .one();
    }

    /** Who is at the round about that source, if there is one. */
    public Optional<String> holder(Round round) throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT holder FROM deciding_round WHERE source = :source AND place = :place")
                .bind("source", round.source())
                .bind("place", round.place())
                .mapTo(String.class)
                .findOne());
    }

    /**
     * Says that a round goes on.
     *
     * @return false if it was silent for too long, and another process has taken it up
     */
    public boolean goesOn(Round round) throws OutboxException {
        return database.inTransaction(handle -> handle.createUpdate("""
                                UPDATE deciding_round SET held_until = :until
                                WHERE source = :source AND place = :place AND holder = :holder""")
                        .bind("until", database.sharedMoment(handle, clock) + HELD.toMillis())
                        .bind("source", round.source())
                        .bind("place", round.place())
                        .bind("holder", round.holder())
                        .execute()
                == 1);
    }

    /** Leaves a round as it is, for whoever begins it next. */
    public void leave(Round round) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate("""
                        UPDATE deciding_round SET held_until = 0
                        WHERE source = :source AND place = :place AND holder = :holder""")
                .bind("source", round.source())
                .bind("place", round.place())
                .bind("holder", round.holder())
                .execute());
    }

    /** Says that a round is through: every photograph of it that is not to be decided again has its decision. */
    public void end(Round round) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate("""
                        DELETE FROM deciding_round WHERE source = :source AND place = :place AND holder = :holder""")
                .bind("source", round.source())
                .bind("place", round.place())
                .bind("holder", round.holder())
                .execute());
    }
}
