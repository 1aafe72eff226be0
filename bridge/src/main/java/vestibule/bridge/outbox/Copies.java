package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/** Our own copies of originals: how long they are kept. What is gone says nothing any more of the photographs beside it. */
public final class Copies {

    /** In what was read of a photograph without a code; any code may be a patient card, or become one by other settings. */
    private static final String WITHOUT_A_CODE = "%\"found\":\"nothing\"%";

    /** As a condition on a row of {@code photo}; binds {@code :sitting} and {@code :withoutACode}. */
    private static final String BEARS_ON_NOTHING = Rounds.NOTHING_TO_DECIDE_NEAR + """

            AND NOT EXISTS (SELECT 1 FROM reading WHERE reading.photo = photo.hash AND reading.text NOT LIKE :withoutACode)
            AND\s""" + nothingInDoubtNear("file_time")
            + "\nAND " + nothingInDoubtNear("captured");

    private static final Map<String, Object> BINDINGS =
            Map.of("sitting", Rounds.SITTING, "withoutACode", WITHOUT_A_CODE);

    /**
     * A person's word has what is in doubt decided again, with all that lies beside it in any of its sources. The state is no parameter, for
     * the index of those that need attention is found by its word alone.
     */
    private static String nothingInDoubtNear(String time) {
        return """
            NOT EXISTS (SELECT 1 FROM photo u WHERE u.state = 'needs-attention' AND u.kept = 1 AND u.source = photo.source
              AND u.place = photo.place AND u.{time} BETWEEN photo.{time} - :sitting AND photo.{time} + :sitting)
            AND NOT EXISTS (SELECT 1 FROM witness here WHERE here.photo = photo.hash AND here.place = photo.place
              AND EXISTS (SELECT 1 FROM photo u WHERE u.state = 'needs-attention' AND u.kept = 1 AND u.source = here.source
                AND u.place = here.place AND u.{time} BETWEEN here.{time} - :sitting AND here.{time} + :sitting))""".replace("{time}", time);
    }

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Copies(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /**
     * Photographs whose copy may go: committed before that moment, kept there, without a code that may be a patient card, and near nothing
     * that is still to be decided or waits for a person.
     */
    public List<String> committedBefore(Instant moment, String place, int most) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT hash FROM photo
                        WHERE state = 'committed' AND kept = 1 AND place = :place AND undecided = 0
                          AND settled_at < :moment AND %s
                        ORDER BY settled_at, hash LIMIT :most""".formatted(BEARS_ON_NOTHING))
                .bindMap(BINDINGS)
                .bind("place", place)
                .bind("moment", moment.toEpochMilli())
                .bind("most", most)
                .mapTo(String.class)
                .list());
    }

    /**
     * Says that a copy is about to be deleted. Said before it is, so that a copy that is recorded is there.
     *
     * @return false if it is needed after all
     */
    public boolean letGo(String photo) throws OutboxException {
        return database.inTransaction(handle -> {
            boolean gone = handle.createUpdate(
                                    "UPDATE photo SET kept = 0 WHERE hash = :photo AND state = 'committed' AND undecided = 0 AND "
                                            + BEARS_ON_NOTHING)
                            .bindMap(BINDINGS)
                            .bind("photo", photo)
                            .execute()
                    == 1;
            if (gone) {
                ledger.settle(handle, photo, clock.millis(), "local copy deleted, its time was over");
            }
            return gone;
        });
    }
}
