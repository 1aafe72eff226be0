package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;

/** What the archive was asked to take responsibility for, and what it said. */
public final class Commitments {

    private static final Duration FIRST_PAUSE = Duration.ofSeconds(5);
    private static final Duration LONGEST_PAUSE = Duration.ofMinutes(5);

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Commitments(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /** Names an object. */
    public record Reference(String sopInstance, String sopClass) {}

    /** What an object that the archive does not keep comes to. */
    public enum Refusal {
        /** The archive does not have it: it is sent again. */
        ABSENT,
        /** It may take responsibility later. */
        LATER,
        /** It will not: a person must decide. */
        NEVER
    }

    /** An object that the archive does not keep, and why. */
    public record Failed(Reference object, Refusal refusal, String why) {}

    /** What a report came to. */
    public enum Taken {
        /** What it says is recorded. */
        RECORDED,
        /** The transaction had its report before; nothing was changed. */
        REPEATED,
        /** Nobody asked that archive under this transaction; nothing was changed. */
        UNKNOWN
    }

    /**
     * Takes objects that wait for commitment into a new transaction; recorded before the archive is asked, so that a report is known
     * whenever it comes.
     *
     * @param transaction a UID that was never used
     * @param archive the AE title that is asked
     * @param most how many objects it may have
     * @return what to ask for; empty if nothing waits, and there is no transaction then
     */
    public List<Reference> open(String transaction, String archive, int most, Instant deadline) throws OutboxException {
        return database.inTransaction(handle -> {
            List<Reference> objects = waiting(handle, most);
            if (!objects.isEmpty()) {
                insert(handle, transaction, archive, deadline);
                objects.forEach(object -> ask(handle, transaction, object));
            }
            return objects;
        });
    }

    /** Objects that are stored and wait for a proof: those of the decision that stands, never asked for or to be asked for again. */
    public List<Reference> waiting(int most) throws OutboxException {
        return database.reading(handle -> waiting(handle, most));
    }

    private List<Reference> waiting(Handle handle, int most) {
        return handle.createQuery("""
                        SELECT sop_instance, sop_class FROM dicom_object o
                        WHERE o.state IN ('sent', 'found') AND o.asked IS NULL AND o.due <= :now
                          AND o.revision = (SELECT p.revision FROM photo p WHERE p.hash = o.photo)
                        ORDER BY o.changed_at, o.sop_instance LIMIT :most""" + database.dialect().lockFree())
                .bind("now", clock.millis())
                .bind("most", most)
                .map((result, context) ->
                        new Reference(result.getString("sop_instance"), result.getString("sop_class")))
                .list();
    }

    private void insert(Handle handle, String transaction, String archive, Instant deadline) {
        handle.createUpdate("""
                        INSERT INTO commitment (transaction_uid, archive, state, asked_at, deadline)
                        VALUES (:transaction, :archive, 'open', :now, :deadline)""")
                .bind("transaction", transaction)
                .bind("archive", archive)
                .bind("now", clock.millis())
                .bind("deadline", deadline.toEpochMilli())
                .execute();
    }

    private static void ask(Handle handle, String transaction, Reference object) {
        handle.createUpdate("UPDATE dicom_object SET asked = :transaction WHERE sop_instance = :instance")
                .bind("transaction", transaction)
                .bind("instance", object.sopInstance())
                .execute();
        handle.createUpdate(
                        "INSERT INTO commitment_object (transaction_uid, sop_instance) VALUES (:transaction, :instance)")
                .bind("transaction", transaction)
                .bind("instance", object.sopInstance())
                .execute();
    }

    /** The archive refused the request, or it was never sent: its objects are asked for again later, under another transaction. */
    public void notTaken(String transaction, String why) throws OutboxException {
        close(transaction, "refused", why);
    }

    /** Ends a transaction whose report can come no more; one that comes all the same is believed. */
    public void unreported(String transaction) throws OutboxException {
        close(transaction, "expired", "the association ended before the commitment report came");
    }

    /** Ends transactions whose deadline has passed; returns how many. A report that comes later all the same is believed. */
    public int expire() throws OutboxException {
        List<String> late = database.reading(handle -> handle.createQuery(
                        "SELECT transaction_uid FROM commitment WHERE state = 'open' AND deadline <= :now")
                .bind("now", clock.millis())
                .mapTo(String.class)
                .list());
        for (String transaction : late) {
            close(transaction, "expired", "no commitment report came in time");
        }
        return late.size();
    }

    private void close(String transaction, String state, String why) throws OutboxException {
        database.inTransaction(handle -> {
            if (lockIfOpen(handle, transaction)) {
                state(handle, transaction, state);
                lockPhotos(handle, transaction);
                for (Row row : rows(handle, transaction).values()) {
                    askAgain(handle, transaction, row, why);
                }
            }
            return transaction;
        });
    }

    private record Row(String sopInstance, String sopClass, String photo, ObjectState state, int asks) {}

    /**
     * An object is about to be sent anew. Whatever was asked for before was about a copy that the archive may since have lost, so no report
     * that is still to come under those transactions says anything about the one that is sent now.
     */
    static void overtaken(Handle handle, String sopInstance) {
        // What was never begun was never asked for; that spares every first sending a look through all requests
        boolean again = handle.createUpdate(
                                "UPDATE dicom_object SET asked = NULL WHERE sop_instance = :instance AND begun = 1 AND state <> 'committed'")
                        .bind("instance", sopInstance)
                        .execute()
                == 1;
        if (again) {
            handle.createUpdate("""
                            UPDATE commitment_object SET outcome = 'overtaken'
                            WHERE sop_instance = :instance AND outcome IS NULL""").bind("instance", sopInstance).execute();
        }
    }

    private void lockPhotos(Handle handle, String transaction) {
        ledger.lockAll(
                handle,
                handle.createQuery("""
                        SELECT DISTINCT o.photo FROM commitment_object c
                        JOIN dicom_object o ON o.sop_instance = c.sop_instance
                        WHERE c.transaction_uid = :transaction""")
                        .bind("transaction", transaction)
                        .mapTo(String.class)
                        .list());
    }

    private static Map<String, Row> rows(Handle handle, String transaction) {
        Map<String, Row> rows = new HashMap<>();
        handle.createQuery("""
                        SELECT o.sop_instance, o.sop_class, o.photo, o.state, o.asks FROM commitment_object c
                        JOIN dicom_object o ON o.sop_instance = c.sop_instance
                        WHERE c.transaction_uid = :transaction AND c.outcome IS NULL""")
                .bind("transaction", transaction)
                .map((result, context) -> new Row(
                        result.getString("sop_instance"),
                        result.getString("sop_class"),
                        result.getString("photo"),
                        ObjectState.of(result.getString("state")),
                        result.getInt("asks")))
                .forEach(row -> rows.put(row.sopInstance(), row));
        return rows;
    }

    private boolean lockIfOpen(Handle handle, String transaction) {
        return stateOf(handle, transaction, null).filter("open"::equals).isPresent();
    }

    private Optional<String> stateOf(Handle handle, String transaction, @Nullable String archive) {
        return handle.createQuery(
                        "SELECT state FROM commitment WHERE transaction_uid = :transaction AND archive = COALESCE(:archive, archive)"
                                + database.dialect().lock())
                .bind("transaction", transaction)
                .bind("archive", archive)
                .mapTo(String.class)
                .findOne();
    }

    private static void state(Handle handle, String transaction, String state) {
        handle.createUpdate("UPDATE commitment SET state = :state WHERE transaction_uid = :transaction")
                .bind("state", state)
                .bind("transaction", transaction)
                .execute();
    }

    /** Frees an object for another request, unless another one is open for it already. */
    private void askAgain(Handle handle, String transaction, Row row, String why) {
        int freed = handle.createUpdate("""
                        UPDATE dicom_object SET asked = NULL, asks = asks + 1, due = :due
                        WHERE sop_instance = :instance AND asked = :transaction AND state <> 'committed'""")
                .bind("due", clock.millis() + pause(row.asks()).toMillis())
                .bind("instance", row.sopInstance())
                .bind("transaction", transaction)
                .execute();
        if (freed == 1) {
            notCommitted(handle, row.photo(), why);
            ledger.settle(handle, row.photo(), clock.millis(), why);
        }
    }

    private static void notCommitted(Handle handle, String photo, String why) {
        handle.createUpdate("UPDATE photo SET not_committed = :why WHERE hash = :photo")
                .bind("why", why)
                .bind("photo", photo)
                .execute();
    }

    private static Duration pause(int before) {
        Duration pause = FIRST_PAUSE.multipliedBy(1L << Math.min(before, 10));
        return pause.compareTo(LONGEST_PAUSE) < 0 ? pause : LONGEST_PAUSE;
    }

    /**
     * Records what an archive reports. Objects that were not asked for under this transaction change nothing, nor do those named with
     * another SOP class, nor what was sent anew since; what was asked for and is not mentioned is asked for again.
     *
     * @param archive the AE title that reports
     */
    public Taken report(String transaction, String archive, List<Reference> committed, List<Failed> failed)
            throws OutboxException {
        return database.inTransaction(handle -> {
            String state = stateOf(handle, transaction, archive).orElse("");
            if (state.isEmpty()) {
                return Taken.UNKNOWN;
            }
            if (!state.equals("open") && !state.equals("expired")) {
                return Taken.REPEATED;
            }
            lockPhotos(handle, transaction);
            Map<String, Row> asked = rows(handle, transaction);
            state(handle, transaction, "answered");
            for (Reference object : committed) {
                Row row = asked.get(object.sopInstance());
                if (row != null && row.sopClass().equals(object.sopClass())) {
                    asked.remove(object.sopInstance());
                    commit(handle, transaction, row);
                }
            }
            for (Failed failure : failed) {
                Row row = asked.remove(failure.object().sopInstance());
                if (row != null) {
                    fail(handle, transaction, row, failure);
                }
            }
            for (Row row : asked.values()) {
                askAgain(handle, transaction, row, "the commitment report does not mention it");
            }
            return Taken.RECORDED;
        });
    }

    private void commit(Handle handle, String transaction, Row row) {
        outcome(handle, transaction, row, "committed");
        prove(handle, row.sopInstance(), row.photo(), "commitment");
    }

    /** Only what the archive has been found to have can be committed: not what is to be sent, or is being sent, anew. */
    private boolean prove(Handle handle, String sopInstance, String photo, String proof) {
        boolean proven = handle.createUpdate("""
                        UPDATE dicom_object SET state = 'committed', proof = :proof, asked = NULL, changed_at = :now
                        WHERE sop_instance = :instance AND state IN ('sent', 'found')""")
                        .bind("proof", proof)
                        .bind("now", clock.millis())
                        .bind("instance", sopInstance)
                        .execute()
                == 1;
        if (proven) {
            PhotoState state = ledger.settle(handle, photo, clock.millis(), "proven by " + proof);
            if (state == PhotoState.COMMITTED) {
                handle.createUpdate("UPDATE photo SET not_committed = NULL WHERE hash = :photo")
                        .bind("photo", photo)
                        .execute();
            }
        }
        return proven;
    }

    private void fail(Handle handle, String transaction, Row row, Failed failure) {
        outcome(handle, transaction, row, "failed");
        boolean current = handle.createQuery("""
                        SELECT COUNT(*) FROM dicom_object
                        WHERE sop_instance = :instance AND asked = :transaction AND state IN ('sent', 'found')""")
                        .bind("instance", row.sopInstance())
                        .bind("transaction", transaction)
                        .mapTo(Integer.class)
                        .one()
                > 0;
        if (!current) {
            return;
        }
        askAgain(handle, transaction, row, failure.why());
        if (failure.refusal() == Refusal.ABSENT) {
            handle.createUpdate("UPDATE dicom_object SET state = 'made' WHERE sop_instance = :instance")
                    .bind("instance", row.sopInstance())
                    .execute();
            ledger.settle(handle, row.photo(), clock.millis(), "the archive does not have it");
        } else if (failure.refusal() == Refusal.NEVER) {
            handle.createUpdate("""
                            UPDATE photo SET reason = 'commitment-refused', message = :message, proposal = NULL, delivery = 1,
                              doubt_waits = CASE WHEN reason IS NOT NULL AND delivery = 0 THEN 1 ELSE doubt_waits END
                            WHERE hash = :photo""")
                    .bind(
                            "message",
                            "The archive stored it and does not take responsibility for it: %s; ask who runs the archive."
                                    .formatted(failure.why()))
                    .bind("photo", row.photo())
                    .execute();
            ledger.settle(handle, row.photo(), clock.millis(), "commitment-refused");
        }
    }

    private static void outcome(Handle handle, String transaction, Row row, String outcome) {
        handle.createUpdate("""
                        UPDATE commitment_object SET outcome = :outcome
                        WHERE transaction_uid = :transaction AND sop_instance = :instance""")
                .bind("outcome", outcome)
                .bind("transaction", transaction)
                .bind("instance", row.sopInstance())
                .execute();
    }

    /** What the archive keeps was read back, and is what was sent. */
    public boolean readBack(String sopInstance) throws OutboxException {
        return database.inTransaction(handle -> {
            Optional<String> photo = lockPhotoOf(handle, sopInstance);
            return photo.isPresent() && prove(handle, sopInstance, photo.get(), "read-back");
        });
    }

    private Optional<String> lockPhotoOf(Handle handle, String sopInstance) {
        Optional<String> photo = handle.createQuery("SELECT photo FROM dicom_object WHERE sop_instance = :instance")
                .bind("instance", sopInstance)
                .mapTo(String.class)
                .findOne();
        photo.ifPresent(hash -> ledger.lock(handle, hash));
        return photo;
    }

    /** Reading back did not work out now; it is tried again later. */
    public void readBackLater(String sopInstance, String why) throws OutboxException {
        database.inTransaction(handle -> {
            lockPhotoOf(handle, sopInstance);
            handle.createUpdate("UPDATE dicom_object SET asked = 'read-back' WHERE sop_instance = :instance")
                    .bind("instance", sopInstance)
                    .execute();
            handle.createQuery(
                            "SELECT sop_instance, sop_class, photo, state, asks FROM dicom_object WHERE sop_instance = :instance")
                    .bind("instance", sopInstance)
                    .map((result, context) -> new Row(
                            result.getString("sop_instance"),
                            result.getString("sop_class"),
                            result.getString("photo"),
                            ObjectState.of(result.getString("state")),
                            result.getInt("asks")))
                    .list()
                    .forEach(row -> askAgain(handle, "read-back", row, why));
            return sopInstance;
        });
    }

    /** Says why a photograph is not committed yet, until it is. */
    public void notCommitted(String photo, String why) throws OutboxException {
        database.inTransaction(handle -> {
            notCommitted(handle, photo, why);
            return photo;
        });
    }

    /** Commitment cannot be asked for now; nothing is asked for before that moment, but what is being changed just now. */
    public void putOff(Instant until) throws OutboxException {
        database.inTransaction(
                handle -> handle.createUpdate("""
                        UPDATE dicom_object SET due = :due WHERE sop_instance IN (
                          SELECT sop_instance FROM dicom_object WHERE state IN ('sent', 'found') AND asked IS NULL%s)""".formatted(database.dialect().lockFree()))
                        .bind("due", until.toEpochMilli())
                        .execute());
    }

    /** How many transactions are open. */
    public int open() throws OutboxException {
        return database.reading(handle -> handle.createQuery("SELECT COUNT(*) FROM commitment WHERE state = 'open'")
                .mapTo(Integer.class)
                .one());
    }
}
