package vestibule.bridge.outbox;

import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;

/** What was taken in, and what lies in the sources. */
public final class Arrivals {

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Arrivals(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /**
     * A file of a source whose bytes are safe with us.
     *
     * @param source the card or folder
     * @param name the file's name in it, folders and all, parted by {@code /}
     * @param photo the SHA-256 of its bytes, in hexadecimal
     * @param bytes how many it has
     * @param fileTime what the source gave as its time of change
     * @param captured when it was taken, by its camera's clock put right, where that is known
     * @param place which folder of originals holds our copy
     * @param reading what was read in it already, as {@link Readings} keeps it
     */
    public record Arrival(
            String source,
            String name,
            String photo,
            long bytes,
            Instant fileTime,
            Optional<Instant> captured,
            String place,
            Optional<String> reading) {

        /** One of which nobody knows when it was taken. */
        public Arrival(
                String source,
                String name,
                String photo,
                long bytes,
                Instant fileTime,
                String place,
                Optional<String> reading) {
            this(source, name, photo, bytes, fileTime, Optional.empty(), place, reading);
        }
    }

    /**
     * A file of a source, as the last look saw it.
     *
     * @param photo the photograph it is, if it was taken in
     * @param sentence why it was not
     */
    public record Sighting(
            String name, long bytes, Instant fileTime, Optional<String> photo, Optional<String> sentence) {

        /** Whether a file of that name is as it was seen; times are kept to the millisecond. */
        public boolean isStill(long bytesNow, Instant fileTimeNow) {
            return bytes == bytesNow && fileTime.toEpochMilli() == fileTimeNow.toEpochMilli();
        }
    }

    /**
     * Says that a source is there and is looked at from now on.
     *
     * @param folder where it lies
     * @param node on whose computer; empty where the outbox is of one home
     * @return what it is called: its folder, unless another node has a source there
     */
    public String sourceSeen(String folder, String place, String node) throws OutboxException {
        return database.inTransaction(handle -> {
            String shortly = node.substring(0, Math.min(8, node.length()));
            for (String name : List.of(folder, "%s (node %s)".formatted(folder, shortly))) {
                if (claim(handle, name, folder, node) > 0) {
                    remember(handle, name, place);
                    return name;
                }
            }
            throw new SQLException("another node has a source of the name that this one would get");
        });
    }

    private int claim(Handle handle, String name, String folder, String node) {
        return handle.createUpdate("""
                        INSERT INTO source (name, folder, node, place, first_seen) VALUES (:name, :folder, :node, '', :now)
                        ON CONFLICT (name) DO UPDATE SET node = :node
                        WHERE source.folder = :folder AND (source.node IS NULL OR source.node = :node)""")
                .bind("name", name)
                .bind("folder", folder)
                .bind("node", node)
                .bind("now", clock.millis())
                .execute();
    }

    private void remember(Handle handle, String source, String place) {
        handle.createUpdate("""
                        INSERT INTO source (name, folder, place, first_seen) VALUES (:source, :source, :place, :now)
                        ON CONFLICT (name) DO UPDATE SET place = :place""")
                .bind("source", source)
                .bind("place", place)
                .bind("now", clock.millis())
                .execute();
    }

    /** A file that lies in a source, taken in or not. */
    public record Lying(String name, long bytes, Instant fileTime) {}

    /** Says what lies in a source at a look, before any of it is recorded: it may be another memory card than at the last one. */
    public void lie(String source, List<Lying> files) throws OutboxException {
        database.inTransaction(handle -> {
            Media.lie(handle, source, files);
            return source;
        });
    }

    /** Whether a photograph of that length has been taken in. */
    public boolean isLengthKnown(long bytes) throws OutboxException {
        return database.reading(handle -> handle.createQuery("SELECT hash FROM photo WHERE bytes = :bytes LIMIT 1")
                .bind("bytes", bytes)
                .mapTo(String.class)
                .findOne()
                .isPresent());
    }

    /** Whether a photograph of these bytes has been taken in before, and our copy of it is kept there and was never found damaged. */
    public boolean isKept(String photo, String place) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT COUNT(*) FROM photo WHERE hash = :photo AND place = :place AND kept = 1
                          AND NOT EXISTS (SELECT 1 FROM transition t WHERE t.photo = photo.hash
                            AND t.cause IN ('original-damaged', 'unreadable'))""")
                        .bind("photo", photo)
                        .bind("place", place)
                        .mapTo(Integer.class)
                        .one()
                > 0);
    }

    /**
     * Records a file whose bytes are safe; from now on it cannot be lost.
     *
     * @return whether the photograph is new; else its bytes were taken in before, under this name or another
     */
    public boolean record(Arrival arrival) throws OutboxException {
        return database.inTransaction(handle -> {
            remember(handle, arrival.source(), arrival.place());
            boolean fresh = insert(handle, arrival);
            if (fresh) {
                ledger.write(handle, arrival.photo(), clock.millis(), Optional.empty(), PhotoState.WAITING, "taken in");
                arrival.reading().ifPresent(text -> Readings.keep(handle, arrival.photo(), text));
            } else {
                keepAgain(handle, arrival);
                Witnesses.known(handle, arrival);
            }
            Sighting sighting = new Sighting(
                    arrival.name(),
                    arrival.bytes(),
                    arrival.fileTime(),
                    Optional.of(arrival.photo()),
                    Optional.empty());
            Witnesses.whole(handle, arrival.source(), sighting);
            see(handle, arrival.source(), sighting);
            return fresh;
        });
    }

    /** Another name may say another patient, so one that is new has the photograph decided again, and nothing is sent of it until then. */
    private void keepAgain(Handle handle, Arrival arrival) {
        ledger.lock(handle, arrival.photo());
        handle.createUpdate("""
                        UPDATE photo SET kept = 1, place = :place, captured = COALESCE(:captured, captured),
                          undecided = CASE WHEN reason = 'unreadable' AND delivery = 0 THEN 1 ELSE undecided END
                        WHERE hash = :photo""")
                .bind("photo", arrival.photo())
                .bind("place", arrival.place())
                .bind("captured", arrival.captured().map(Instant::toEpochMilli))
                .execute();
        boolean known = Names.isKnown(handle, arrival.photo(), arrival.name());
        boolean renamed = Names.there(handle, arrival.source(), arrival.name(), arrival.photo(), clock.millis());
        if (!known || renamed) {
            handle.createUpdate("UPDATE photo SET undecided = 1 WHERE hash = :photo")
                    .bind("photo", arrival.photo())
                    .execute();
            ledger.settle(handle, arrival.photo(), clock.millis(), "seen under another name");
        }
    }

    private boolean insert(Handle handle, Arrival arrival) {
        return handle.createUpdate("""
                        INSERT INTO photo (hash, bytes, place, source, medium, name, file_time, captured, taken_in, state, undecided,
                          revision, to_send, due, attempts, kept)
                        SELECT :photo, :bytes, :place, name, medium, :name, :fileTime, :captured, :now, 'waiting', 1, 0, 0, 0, 0, 1
                        FROM source WHERE name = :source
                        ON CONFLICT (hash) DO NOTHING""")
                        .bind("photo", arrival.photo())
                        .bind("bytes", arrival.bytes())
                        .bind("place", arrival.place())
                        .bind("source", arrival.source())
                        .bind("name", arrival.name())
                        .bind("fileTime", arrival.fileTime().toEpochMilli())
                        .bind(
                                "captured",
                                arrival.captured().orElse(arrival.fileTime()).toEpochMilli())
                        .bind("now", clock.millis())
                        .execute()
                == 1;
    }

    /** Records a file that was seen and not taken in, with the reason. */
    public void leftBehind(String source, Sighting sighting) throws OutboxException {
        database.inTransaction(handle -> {
            see(handle, source, sighting);
            return source;
        });
    }

    /** Records a file whose bytes could not be read yet; it may be a patient card, so nothing near it is sent before that is decided. */
    public void unread(String source, String place, Sighting sighting) throws OutboxException {
        database.inTransaction(handle -> {
            Witnesses.unread(handle, source, place, sighting);
            return source;
        });
    }

    /** Records that a file which could not be read for a while is no photograph. */
    public void noCard(String source, Sighting sighting) throws OutboxException {
        database.inTransaction(handle -> {
            Witnesses.whole(handle, source, sighting);
            return source;
        });
    }

    private void see(Handle handle, String source, Sighting sighting) {
        Names.gone(handle, source, sighting.name(), sighting.photo().orElse(""), clock.millis());
        handle.createUpdate("""
                        INSERT INTO sighting (source, name, bytes, file_time, photo, sentence)
                        VALUES (:source, :name, :bytes, :fileTime, :photo, :sentence)
                        ON CONFLICT (source, name) DO UPDATE
                        SET bytes = :bytes, file_time = :fileTime, photo = :photo, sentence = :sentence""")
                .bind("source", source)
                .bind("name", sighting.name())
                .bind("bytes", sighting.bytes())
                .bind("fileTime", sighting.fileTime().toEpochMilli())
                .bind("photo", sighting.photo())
                .bind("sentence", sighting.sentence())
                .execute();
    }

    /** What lay in a source at the last look, in the order of names. */
    public List<Sighting> sightings(String source) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT name, bytes, file_time, photo, sentence FROM sighting
                        WHERE source = :source ORDER BY name""")
                .bind("source", source)
                .map((result, context) -> new Sighting(
                        result.getString("name"),
                        result.getLong("bytes"),
                        Instant.ofEpochMilli(result.getLong("file_time")),
                        Optional.ofNullable(result.getString("photo")),
                        Optional.ofNullable(result.getString("sentence"))))
                .list());
    }

    /** Forgets sightings of files that are no longer there; their photographs stay, and the names that these had. */
    public void gone(String source, List<String> names) throws OutboxException {
        if (names.isEmpty()) {
            return;
        }
        database.inTransaction(handle -> {
            for (String name : names.stream().sorted().toList()) {
                Names.gone(handle, source, name, "", clock.millis());
                handle.createUpdate("DELETE FROM sighting WHERE source = :source AND name = :name")
                        .bind("source", source)
                        .bind("name", name)
                        .execute();
                Witnesses.gone(handle, source, name);
            }
            return source;
        });
    }

    /** Says that a look reached everything in a source. */
    public void looked(String source) throws OutboxException {
        mark(source, clock.millis(), null);
    }

    /** Says why a look did not reach everything; until one does, the source is not to be cleared. */
    public void trouble(String source, String sentence) throws OutboxException {
        mark(source, null, sentence);
    }

    private void mark(String source, @Nullable Long lookedAt, @Nullable String trouble) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate("""
                        UPDATE source SET looked_at = COALESCE(:lookedAt, looked_at), trouble = :trouble
                        WHERE name = :source""")
                .bind("lookedAt", lookedAt)
                .bind("trouble", trouble)
                .bind("source", source)
                .execute());
    }
}
