package vestibule.bridge.outbox;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.jdbi.v3.core.Handle;

/**
 * The one place where the state of a photograph is worked out and every change of it written down with time and cause. The state is never
 * set, it follows from what is recorded.
 */
final class Ledger {

    private final Dialect dialect;

    Ledger(Dialect dialect) {
        this.dialect = dialect;
    }

    private record Row(
            String state, boolean aside, boolean doubtful, boolean decided, boolean undecided, int revision) {}

    private record Kept(ObjectState state, boolean isNote) {}

    private record Objects(List<Kept> all) {

        List<ObjectState> states() {
            return all.stream().map(Kept::state).toList();
        }

        /** Whether anything is to be sent; the rest of a photograph is not, after the archive refused one of its objects for good. */
        boolean unsent() {
            boolean refused = all.stream().anyMatch(one -> !one.isNote() && one.state() == ObjectState.REJECTED);
            return all.isEmpty()
                    || all.stream()
                            .anyMatch(one -> one.state() == ObjectState.SENDING
                                    || (one.state() == ObjectState.MADE && (one.isNote() || !refused)));
        }
    }

    /**
     * Locks a photograph until the transaction ends; false if there is none of that hash. What belongs to a photograph, its objects first
     * of all, is changed by whoever has locked it; and whoever locks its source does so before.
     */
    boolean lock(Handle handle, String photo) {
        return handle.createQuery("SELECT hash FROM photo WHERE hash = :photo" + dialect.lock())
                .bind("photo", photo)
                .mapTo(String.class)
                .findOne()
                .isPresent();
    }

    /** Locks several, always in the same order, so that no two transactions wait for each other. */
    void lockAll(Handle handle, Collection<String> photos) {
        new TreeSet<>(photos).forEach(photo -> lock(handle, photo));
    }

    /** Works the state out again and writes the change down; also where the state stays, for the cause is worth knowing. */
    PhotoState settle(Handle handle, String photo, long now, String cause) {
        Row row = row(handle, photo);
        Objects objects = objects(handle, photo, row.revision());
        PhotoState after = PhotoState.of(row.aside(), row.doubtful(), objects.states());
        boolean toSend = row.decided() && !row.undecided() && !row.aside() && !row.doubtful() && objects.unsent();
        handle.createUpdate("""
                        UPDATE photo SET state = :state, to_send = :toSend,
                          settled_at = CASE WHEN :state = 'committed' THEN COALESCE(settled_at, :now) ELSE NULL END
                        WHERE hash = :photo""")
                .bind("state", after.word())
                .bind("toSend", toSend ? 1 : 0)
                .bind("now", now)
                .bind("photo", photo)
                .execute();
        write(handle, photo, now, Optional.of(row.state()), after, cause);
        return after;
    }

    /** Writes a change down. */
    void write(Handle handle, String photo, long now, Optional<String> before, PhotoState after, String cause) {
        handle.createUpdate("""
                        INSERT INTO transition (photo, at, before, after, cause)
                        VALUES (:photo, :at, :before, :after, :cause)""")
                .bind("photo", photo)
                .bind("at", now)
                .bind("before", before)
                .bind("after", after.word())
                .bind("cause", cause)
                .execute();
    }

    private Row row(Handle handle, String photo) {
        return handle.createQuery("""
                        SELECT state, aside, reason, decision, undecided, revision FROM photo WHERE hash = :photo""" + dialect.lock())
                .bind("photo", photo)
                .map((result, context) -> new Row(
                        result.getString("state"),
                        result.getString("aside") != null,
                        result.getString("reason") != null,
                        result.getString("decision") != null,
                        result.getInt("undecided") != 0,
                        result.getInt("revision")))
                .one();
    }

    private static Objects objects(Handle handle, String photo, int revision) {
        return new Objects(new ArrayList<>(handle.createQuery(
                        "SELECT state, takes_back FROM dicom_object WHERE photo = :photo AND revision = :revision")
                .bind("photo", photo)
                .bind("revision", revision)
                .map((result, context) ->
                        new Kept(ObjectState.of(result.getString("state")), result.getInt("takes_back") == 1))
                .list()));
    }
}
