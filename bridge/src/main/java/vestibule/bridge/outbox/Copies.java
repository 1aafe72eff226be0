package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Instant;
import java.util.List;

/** Our own copies of originals: how long they are kept. */
public final class Copies {

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Copies(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /** Photographs whose copy may go: committed before that moment, and kept there. */
    public List<String> committedBefore(Instant moment, String place, int most) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT hash FROM photo
                        WHERE state = 'committed' AND kept = 1 AND place = :place AND undecided = 0
                          AND settled_at < :moment AND %s
                        ORDER BY settled_at, hash LIMIT :most""".formatted(Rounds.NOTHING_TO_DECIDE_NEAR))
                .bind("sitting", Rounds.SITTING)
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
                                            + Rounds.NOTHING_TO_DECIDE_NEAR)
                            .bind("sitting", Rounds.SITTING)
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
