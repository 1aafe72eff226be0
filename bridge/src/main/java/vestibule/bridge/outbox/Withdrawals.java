package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;

/**
 * Objects that the archive has, or may have, and that were decided otherwise since. Each stays on the list until the archive has a rejection
 * note that names it, or a person says that it was taken back there.
 */
public final class Withdrawals {

    private static final String OPEN =
            "w.settled_at IS NULL AND (n.state IS NULL OR n.state NOT IN ('found', 'sent', 'committed'))";

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Withdrawals(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /**
     * An object for a note to name.
     *
     * @param reason why it is wrong
     * @param since when it was decided otherwise
     * @param heading what the note repeats of it
     */
    public record Withdrawn(String sopInstance, String reason, Instant since, String heading) {}

    /**
     * An object that nothing took back yet.
     *
     * @param name the name of its photograph
     * @param nameable whether enough is known of it for a note, and its photograph is not set aside, of which nothing is sent any more
     * @param byNote whether a note that names it is on its way
     */
    public record Open(
            String photo, String name, String sopInstance, String reason, boolean nameable, boolean byNote) {}

    /** Puts what the archive has, or may have, of a photograph on the list. */
    static void record(Handle handle, String photo, String reason, long now) {
        handle.createUpdate("""
                        INSERT INTO withdrawal (sop_instance, photo, reason, since)
                        SELECT sop_instance, photo, :reason, :now FROM dicom_object
                        WHERE photo = :photo AND takes_back = 0 AND state NOT IN ('made', 'rejected')
                        ON CONFLICT (sop_instance) DO NOTHING""")
                .bind("photo", photo)
                .bind("reason", reason)
                .bind("now", now)
                .execute();
    }

    /** Notes that never reached the archive and are not wanted any more go; what is wanted is linked to what it names. */
    static void link(Handle handle, String photo, List<Consignments.Made> objects) {
        List<String> wanted = objects.stream()
                .filter(Consignments.Made::isNote)
                .map(Consignments.Made::sopInstance)
                .toList();
        List<String> unsent =
                handle.createQuery("""
                        SELECT sop_instance FROM dicom_object
                        WHERE photo = :photo AND takes_back = 1 AND state IN ('made', 'rejected')""").bind("photo", photo).mapTo(String.class).list();
        for (String note : unsent) {
            if (!wanted.contains(note)) {
                drop(handle, note);
            }
        }
        for (Consignments.Made note : objects) {
            for (String named : note.takesBack()) {
                handle.createUpdate("UPDATE withdrawal SET note = :note WHERE sop_instance = :named")
                        .bind("note", note.sopInstance())
                        .bind("named", named)
                        .execute();
            }
        }
    }

    private static void drop(Handle handle, String note) {
        handle.createUpdate("UPDATE withdrawal SET note = NULL WHERE note = :note")
                .bind("note", note)
                .execute();
        handle.createUpdate("DELETE FROM dicom_object WHERE sop_instance = :note")
                .bind("note", note)
                .execute();
    }

    /** What notes of a photograph have to name, sent or not; nothing of which too little is known, or that a person saw to. */
    public List<Withdrawn> toName(String photo) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT w.sop_instance, w.reason, w.since, o.heading FROM withdrawal w
                        JOIN dicom_object o ON o.sop_instance = w.sop_instance
                        WHERE w.photo = :photo AND w.settled_at IS NULL AND o.heading IS NOT NULL
                        ORDER BY w.since, w.sop_instance""")
                .bind("photo", photo)
                .map((result, context) -> new Withdrawn(
                        result.getString("sop_instance"),
                        result.getString("reason"),
                        Instant.ofEpochMilli(result.getLong("since")),
                        result.getString("heading")))
                .list());
    }

    /** Those of some photographs of which the objects of the decision that stands are on the list, or were before that was done. */
    public Set<String> ofWhatStands(Collection<String> photos) throws OutboxException {
        if (photos.isEmpty()) {
            return Set.of();
        }
        return database.reading(handle -> handle.createQuery("""
                        SELECT DISTINCT p.hash FROM photo p JOIN dicom_object o ON o.photo = p.hash AND o.revision = p.revision
                        JOIN withdrawal w ON w.sop_instance = o.sop_instance WHERE p.hash IN (<photos>)""")
                .bindList("photos", photos)
                .mapTo(String.class)
                .set());
    }

    /** What nothing took back yet, of all photographs or of that one, oldest first. */
    public List<Open> open(Optional<String> photo) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT w.photo, p.name, p.aside, w.sop_instance, w.reason, w.note, o.heading FROM withdrawal w
                        JOIN photo p ON p.hash = w.photo
                        JOIN dicom_object o ON o.sop_instance = w.sop_instance
                        LEFT JOIN dicom_object n ON n.sop_instance = w.note
                        WHERE %s AND w.photo = COALESCE(:photo, w.photo)
                        ORDER BY w.since, w.sop_instance""".formatted(OPEN))
                .bind("photo", photo.orElse(null))
                .map((result, context) -> new Open(
                        result.getString("photo"),
                        result.getString("name"),
                        result.getString("sop_instance"),
                        result.getString("reason"),
                        result.getString("heading") != null && result.getString("aside") == null,
                        result.getString("note") != null))
                .list());
    }

    /**
     * A person has taken back in the archive what was filed wrongly of a photograph; notes that did not get there are not sent any more.
     *
     * @return how many objects that settles
     */
    public int settled(String photo, Rulings.Said said) throws OutboxException {
        return database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            int settled = handle.createUpdate("""
                            UPDATE withdrawal SET settled_at = :now WHERE sop_instance IN (
                              SELECT w.sop_instance FROM withdrawal w LEFT JOIN dicom_object n ON n.sop_instance = w.note
                              WHERE w.photo = :photo AND %s)""".formatted(OPEN))
                    .bind("photo", photo)
                    .bind("now", clock.millis())
                    .execute();
            if (settled > 0) {
                Testimony.insert(handle, photo, said);
                link(handle, photo, List.of());
                Rulings.clear(handle, photo, "undecided");
                ledger.settle(handle, photo, clock.millis(), "a person took back what was filed wrongly");
            }
            return settled;
        });
    }
}
