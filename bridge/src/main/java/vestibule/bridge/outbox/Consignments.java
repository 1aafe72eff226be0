package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/** What is on its way to the archive: claimed by one node at a time, each step written down before and after it is taken. */
public final class Consignments {

    /** Why a person has to decide: no study is two patients'. */
    public static final String STUDY_OF_ANOTHER_PATIENT = "study-of-another-patient";

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Consignments(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /**
     * An object and how far it has come.
     *
     * @param resend whether a person said that it may be sent again even where the archive cannot be asked whether it has it
     * @param isNote whether it is a rejection note
     * @param begun whether sending it was ever begun, so that some of it may have been seen
     */
    public record Item(
            String sopInstance,
            String sopClass,
            String digest,
            ObjectState state,
            boolean resend,
            boolean isNote,
            boolean begun) {}

    /**
     * A photograph to deliver.
     *
     * @param decision what its objects are made of beside it
     * @param revision which decision that is
     * @param attempts how often it was put off in a row
     */
    public record Consignment(String photo, String decision, int revision, int attempts) {}

    /**
     * In which study an object lies, and whose.
     *
     * @param patient the patient's id, as the object says it
     */
    public record Place(String study, String patient, Optional<String> issuer) {

        /** Nothing of the person; a patient does not belong in logs. */
        @Override
        public String toString() {
            return "place";
        }
    }

    /**
     * An object that has been made of a photograph, or a rejection note.
     *
     * @param heading what a note about it would have to repeat
     * @param takesBack the objects that it names, if it is a note
     * @param place in which study it lies, if it says so
     */
    public record Made(
            String sopInstance,
            String sopClass,
            String digest,
            long bytes,
            Optional<String> heading,
            List<String> takesBack,
            Optional<Place> place) {

        /** With a list that nobody can change. */
        public Made {
            takesBack = List.copyOf(takesBack);
        }

        /** One that does not say in which study it lies. */
        public Made(
                String sopInstance,
                String sopClass,
                String digest,
                long bytes,
                Optional<String> heading,
                List<String> takesBack) {
            this(sopInstance, sopClass, digest, bytes, heading, takesBack, Optional.empty());
        }

        boolean isNote() {
            return !takesBack.isEmpty();
        }
    }

    /**
     * Claims photographs for a node: due ones that no living node has claimed and near which nothing is still to be decided; those taken in
     * first come first.
     */
    public List<Consignment> claim(String node, String place, int most) throws OutboxException {
        return database.inTransaction(handle -> {
            // The sum keeps SQLite from going by due, and so from looking at all before it takes the first few
            List<Consignment> free = handle.createQuery("""
                            SELECT hash, decision, revision, attempts FROM photo
                            WHERE to_send = 1 AND due + 0 <= :now AND place = :place AND (claimed_by IS NULL
                              OR claimed_by NOT IN (SELECT name FROM node WHERE alive_until > :moment))
                              AND %s
                            ORDER BY taken_in, hash LIMIT :most""".formatted(Rounds.NOTHING_TO_DECIDE_NEAR)
                            + database.dialect().lockFree())
                    .bind("sitting", Rounds.SITTING)
                    .bind("now", clock.millis())
                    .bind("moment", database.sharedMoment(handle, clock))
                    .bind("place", place)
                    .bind("most", most)
                    .map((result, context) -> new Consignment(
                            result.getString("hash"),
                            result.getString("decision"),
                            result.getInt("revision"),
                            result.getInt("attempts")))
                    .list();
            free.forEach(each -> handle.createUpdate("UPDATE photo SET claimed_by = :node WHERE hash = :photo")
                    .bind("node", node)
                    .bind("photo", each.photo())
                    .execute());
            return free;
        });
    }

    /** The photograph that an object was made of, with the decision that stands. */
    public Optional<Consignment> of(String sopInstance) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT hash, decision, photo.revision, attempts FROM photo
                        JOIN dicom_object o ON o.photo = photo.hash AND o.revision = photo.revision
                        WHERE o.sop_instance = :instance AND decision IS NOT NULL""")
                .bind("instance", sopInstance)
                .map((result, context) -> new Consignment(
                        result.getString("hash"),
                        result.getString("decision"),
                        result.getInt("revision"),
                        result.getInt("attempts")))
                .findOne());
    }

    /** Whether anything is due that {@link #claim} would give. */
    public boolean isDue(String place) throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT hash FROM photo WHERE to_send = 1 AND due <= :now AND place = :place AND %s LIMIT 1"
                                .formatted(Rounds.NOTHING_TO_DECIDE_NEAR))
                .bind("sitting", Rounds.SITTING)
                .bind("now", clock.millis())
                .bind("place", place)
                .mapTo(String.class)
                .findOne()
                .isPresent());
    }

    /** Whether anything is to be sent from there, now or later. */
    public boolean isAnyLeft(String place) throws OutboxException {
        return database.reading(
                handle -> handle.createQuery("SELECT hash FROM photo WHERE to_send = 1 AND place = :place LIMIT 1")
                        .bind("place", place)
                        .mapTo(String.class)
                        .findOne()
                        .isPresent());
    }

    /** Has everything there sent at once that was put off. */
    public void dueNow(String place) throws OutboxException {
        database.inTransaction(
                handle -> handle.createUpdate("""
                        UPDATE photo SET due = 0 WHERE hash IN (
                          SELECT hash FROM photo WHERE to_send = 1 AND due <> 0 AND place = :place ORDER BY hash%s)""".formatted(database.dialect().lock()))
                        .bind("place", place)
                        .execute());
    }

    /** Gives a photograph back. */
    public void release(String photo, String node) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate(
                        "UPDATE photo SET claimed_by = NULL WHERE hash = :photo AND claimed_by = :node")
                .bind("photo", photo)
                .bind("node", node)
                .execute());
    }

    /** How often in a row a photograph was put off. */
    public int attempts(String photo) throws OutboxException {
        return database.reading(handle -> handle.createQuery("SELECT attempts FROM photo WHERE hash = :photo")
                .bind("photo", photo)
                .mapTo(Integer.class)
                .findOne()
                .orElse(0));
    }

    /** Puts a photograph off, for a reason that may pass by itself. */
    public void putOff(String photo, Instant until, String cause) throws OutboxException {
        database.inTransaction(handle -> {
            handle.createUpdate("UPDATE photo SET due = :due, attempts = attempts + 1 WHERE hash = :photo")
                    .bind("due", until.toEpochMilli())
                    .bind("photo", photo)
                    .execute();
            ledger.settle(handle, photo, clock.millis(), cause);
            return photo;
        });
    }

    /** The objects of a photograph's decision, in their order; empty if none have been made. */
    public List<Item> items(String photo, int revision) throws OutboxException {
        return database.reading(handle -> items(handle, photo, revision));
    }

    private static List<Item> items(Handle handle, String photo, int revision) {
        return handle.createQuery("""
                        SELECT sop_instance, sop_class, digest, state, resend, takes_back, begun FROM dicom_object
                        WHERE photo = :photo AND revision = :revision ORDER BY place""")
                .bind("photo", photo)
                .bind("revision", revision)
                .map((result, context) -> new Item(
                        result.getString("sop_instance"),
                        result.getString("sop_class"),
                        result.getString("digest"),
                        ObjectState.of(result.getString("state")),
                        result.getInt("resend") != 0,
                        result.getInt("takes_back") == 1,
                        result.getInt("begun") == 1))
                .list();
    }

    /**
     * Records the objects of a decision before the first of them is sent. Made a second time they have to be the same, byte for byte, once
     * sending any of them was begun; until then, other settings or another version of this program may make others of the same decision.
     *
     * @return how far each has come, in their order; empty if they are not the same as what was begun, and none may be sent
     */
    public List<Item> made(Consignment consignment, List<Made> objects) throws OutboxException {
        return database.inTransaction(handle -> {
            ledger.lock(handle, consignment.photo());
            List<Item> before = items(handle, consignment.photo(), consignment.revision()).stream()
                    .filter(item -> !item.isNote())
                    .toList();
            if (!same(before, objects)) {
                if (before.stream().anyMatch(Item::begun)) {
                    return List.of();
                }
                forget(handle, before);
            }
            Withdrawals.link(handle, consignment.photo(), objects);
            for (int place = 0; place < objects.size(); place++) {
                if (!insert(handle, consignment, objects.get(place), place)) {
                    return List.of();
                }
            }
            ledger.settle(handle, consignment.photo(), clock.millis(), "objects made");
            return items(handle, consignment.photo(), consignment.revision());
        });
    }

    /** What nobody ever saw leaves no trace, so that of a raw picture that is no longer wanted, too, nothing is left to be sent. */
    private static void forget(Handle handle, List<Item> unbegun) {
        unbegun.forEach(item -> handle.createUpdate("DELETE FROM dicom_object WHERE sop_instance = :instance")
                .bind("instance", item.sopInstance())
                .execute());
    }

    private static boolean same(List<Item> before, List<Made> objects) {
        List<String> known =
                before.stream().map(item -> item.sopInstance() + item.digest()).toList();
        return known.equals(objects.stream()
                .filter(made -> !made.isNote())
                .map(made -> made.sopInstance() + made.digest())
                .toList());
    }

    /**
     * An object that an earlier decision led to as well keeps how far it came.
     *
     * @return false if sending it was begun, and these are not the same bytes
     */
    private boolean insert(Handle handle, Consignment consignment, Made object, int place) {
        return handle.createUpdate("""
                        INSERT INTO dicom_object (sop_instance, sop_class, photo, revision, place, digest, bytes, state,
                          asks, due, changed_at, heading, takes_back, study, patient, issuer)
                        VALUES (:instance, :class, :photo, :revision, :place, :digest, :bytes, 'made', 0, 0, :now,
                          :heading, :takesBack, :study, :patient, :issuer)
                        ON CONFLICT (sop_instance) DO UPDATE SET revision = :revision, place = :place, digest = :digest,
                          bytes = :bytes, heading = :heading, study = :study, patient = :patient, issuer = :issuer
                        WHERE dicom_object.photo = :photo AND (dicom_object.digest = :digest OR dicom_object.begun = 0)""")
                        .bind("instance", object.sopInstance())
                        .bind("class", object.sopClass())
                        .bind("photo", consignment.photo())
                        .bind("revision", consignment.revision())
                        .bind("place", place)
                        .bind("digest", object.digest())
                        .bind("bytes", object.bytes())
                        .bind("heading", object.heading())
                        .bind("takesBack", object.isNote() ? 1 : 0)
                        .bind("study", object.place().map(Place::study).orElse(null))
                        .bind("patient", object.place().map(Place::patient).orElse(null))
                        .bind("issuer", object.place().flatMap(Place::issuer).orElse(null))
                        .bind("now", clock.millis())
                        .execute()
                == 1;
    }

    /**
     * Says that an object is about to be sent; only after this may its first byte go out.
     *
     * @return false if the photograph is no longer ours to send, was decided otherwise meanwhile, or something near it is still to be decided
     */
    public boolean sending(String photo, int revision, String sopInstance, String node) throws OutboxException {
        return database.inTransaction(handle -> {
            boolean ours = handle.createQuery("""
                            SELECT hash FROM photo WHERE hash = :photo AND claimed_by = :node AND revision = :revision
                              AND to_send = 1 AND %s""".formatted(Rounds.NOTHING_TO_DECIDE_NEAR)
                            + database.dialect().lock())
                    .bind("sitting", Rounds.SITTING)
                    .bind("photo", photo)
                    .bind("node", node)
                    .bind("revision", revision)
                    .mapTo(String.class)
                    .findOne()
                    .isPresent();
            boolean alone = ours && !isInStudyOfAnother(handle, sopInstance);
            if (alone) {
                move(handle, photo, sopInstance, ObjectState.SENDING, "sending began");
            } else if (ours) {
                attention(
                        handle,
                        photo,
                        STUDY_OF_ANOTHER_PATIENT,
                        "We filed another patient in the study that it is to go into: say --study new, or the study of this patient.");
            }
            return alone;
        });
    }

    /** Two decisions that waited side by side may name one study for two patients. */
    private static boolean isInStudyOfAnother(Handle handle, String sopInstance) {
        return handle.createQuery("""
                        SELECT COUNT(*) FROM dicom_object ours JOIN dicom_object other ON other.study = ours.study
                        WHERE ours.sop_instance = :instance AND other.state NOT IN ('made', 'rejected')
                          AND (other.patient <> ours.patient OR other.issuer <> ours.issuer)""")
                        .bind("instance", sopInstance)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /** The archive answered success, with a warning or without. */
    public void stored(String photo, String sopInstance, int status, String comment) throws OutboxException {
        answered(photo, sopInstance, ObjectState.SENT, status, comment, "the archive answered %04X".formatted(status));
    }

    /** The archive refused it; for good, unless it is to be tried again. */
    public void refused(String photo, String sopInstance, int status, String comment, boolean again)
            throws OutboxException {
        answered(
                photo,
                sopInstance,
                again ? ObjectState.MADE : ObjectState.REJECTED,
                status,
                comment,
                "the archive refused with %04X".formatted(status));
    }

    private void answered(String photo, String sopInstance, ObjectState state, int status, String comment, String cause)
            throws OutboxException {
        database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            handle.createUpdate(
                            "UPDATE dicom_object SET status = :status, comment = :comment WHERE sop_instance = :instance")
                    .bind("status", status)
                    .bind("comment", comment)
                    .bind("instance", sopInstance)
                    .execute();
            move(handle, photo, sopInstance, state, cause);
            return photo;
        });
    }

    /** No answer was seen, and the archive was asked: it has the object. */
    public void found(String photo, String sopInstance) throws OutboxException {
        moved(photo, sopInstance, ObjectState.FOUND, "the archive was asked and has it");
    }

    /** The archive does not have the object: it was asked, or sending ended before it could have it. */
    public void absent(String photo, String sopInstance, String cause) throws OutboxException {
        moved(photo, sopInstance, ObjectState.MADE, cause);
    }

    private void moved(String photo, String sopInstance, ObjectState state, String cause) throws OutboxException {
        database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            move(handle, photo, sopInstance, state, cause);
            return photo;
        });
    }

    private void move(Handle handle, String photo, String sopInstance, ObjectState state, String cause) {
        if (state == ObjectState.SENDING) {
            Commitments.overtaken(handle, sopInstance);
        }
        handle.createUpdate("""
                        UPDATE dicom_object SET state = :state, resend = 0, changed_at = :now,
                          begun = CASE WHEN :state = 'sending' THEN 1 ELSE begun END
                        WHERE sop_instance = :instance AND state <> 'committed'""")
                .bind("state", state.word())
                .bind("now", clock.millis())
                .bind("instance", sopInstance)
                .execute();
        ledger.settle(handle, photo, clock.millis(), cause);
    }

    /** Something came up while delivering that a person must see; nothing of the photograph is sent meanwhile. */
    public void attention(String photo, String reason, String message) throws OutboxException {
        database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            attention(handle, photo, reason, message);
            return photo;
        });
    }

    private void attention(Handle handle, String photo, String reason, String message) {
        handle.createUpdate("""
                        UPDATE photo SET reason = :reason, message = :message, proposal = NULL, delivery = 1,
                          doubt_waits = CASE WHEN reason IS NOT NULL AND delivery = 0 THEN 1 ELSE doubt_waits END
                        WHERE hash = :photo""")
                .bind("reason", reason)
                .bind("message", message)
                .bind("photo", photo)
                .execute();
        ledger.settle(handle, photo, clock.millis(), reason);
    }

    /** Keeps a sentence that a person should see, though nothing has to be decided. */
    public void note(String photo, String sentence) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate("UPDATE photo SET note = :note WHERE hash = :photo")
                .bind("note", sentence)
                .bind("photo", photo)
                .execute());
    }

    /** Where objects lie that the archive has, or may have, in a study; one for each patient. */
    public List<Place> in(String study) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT DISTINCT study, patient, issuer FROM dicom_object
                        WHERE study = :study AND patient IS NOT NULL AND state NOT IN ('made', 'rejected')""")
                .bind("study", study)
                .map((result, context) -> new Place(
                        result.getString("study"),
                        result.getString("patient"),
                        Optional.ofNullable(result.getString("issuer"))))
                .list());
    }

    /** Which photographs objects were made of, for those of them that are known. */
    public List<String> photosOf(List<String> sopInstances) throws OutboxException {
        return database.reading(handle -> {
            List<String> photos = new ArrayList<>();
            for (String instance : sopInstances) {
                Optional<String> photo = handle.createQuery(
                                "SELECT photo FROM dicom_object WHERE sop_instance = :instance")
                        .bind("instance", instance)
                        .mapTo(String.class)
                        .findOne();
                photo.ifPresent(photos::add);
            }
            return photos;
        });
    }
}
