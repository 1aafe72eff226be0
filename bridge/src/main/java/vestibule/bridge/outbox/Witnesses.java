package vestibule.bridge.outbox;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/**
 * What lies or lay in a source and bears on whose the photographs are that it brought: files that could not be taken in,
 * and photographs that another source brought. Any may be a patient card, so what is near it is decided again when it turns up. What the
 * cards of this source say of those photographs counts where they are decided.
 */
final class Witnesses {

    private static final String SAME_FILE = """
            source = :source AND name = :name AND photo IS NULL AND medium = (SELECT medium FROM source WHERE source.name = :source)
            AND (file_time BETWEEN :fileTime - :sitting AND :fileTime + :sitting OR :anyTime = 1)""";

    private Witnesses() {}

    /** A file that could not be read was seen; one that grows is the same as before. */
    static void unread(Handle handle, String source, String place, Arrivals.Sighting file) {
        change(handle, "settled = 0, undecided = 1", "settled = 1", source, file, false);
        handle.createUpdate(
                        "UPDATE witness SET place = :place, undecided = 1 WHERE source = :source AND name = :name AND photo IS NULL AND place <> :place")
                .bind("place", place)
                .bind("source", source)
                .bind("name", file.name())
                .execute();
        handle.createUpdate("""
                        INSERT INTO witness (source, medium, place, name, file_time, captured, undecided)
                        SELECT name, medium, :place, :name, :fileTime, :fileTime, 1 FROM source WHERE name = :source AND NOT EXISTS (
                          SELECT 1 FROM witness WHERE source = :source AND name = :name AND photo IS NULL AND medium = source.medium
                            AND file_time BETWEEN :fileTime - :sitting AND :fileTime + :sitting)""")
                .bind("source", source)
                .bind("place", place)
                .bind("name", file.name())
                .bind("fileTime", file.fileTime().toEpochMilli())
                .bind("sitting", Rounds.SITTING)
                .execute();
    }

    /** A photograph that another source brought lies here as well. */
    static void known(Handle handle, Arrivals.Arrival arrival) {
        handle.createUpdate("""
                        INSERT INTO witness (source, medium, place, name, file_time, captured, photo, undecided)
                        SELECT source.name, source.medium, :place, :name, :fileTime, :captured, hash, 1 FROM photo
                        JOIN source ON source.name = :source WHERE hash = :photo AND photo.source <> :source
                        ON CONFLICT (source, photo) DO UPDATE SET place = :place, undecided = 1 WHERE witness.place <> :place""")
                .bind("source", arrival.source())
                .bind("place", arrival.place())
                .bind("name", arrival.name())
                .bind("fileTime", arrival.fileTime().toEpochMilli())
                .bind("captured", arrival.captured().orElse(arrival.fileTime()).toEpochMilli())
                .bind("photo", arrival.photo())
                .execute();
        arrival.captured()
                .ifPresent(moment -> handle.createUpdate(
                                "UPDATE witness SET captured = :captured WHERE photo = :photo AND captured <> :captured")
                        .bind("captured", moment.toEpochMilli())
                        .bind("photo", arrival.photo())
                        .execute());
    }

    /** A person said something about a photograph, which may be the card of others wherever it lies. */
    static void spoken(Handle handle, String photo) {
        handle.createUpdate("UPDATE witness SET undecided = 1 WHERE photo = :photo")
                .bind("photo", photo)
                .execute();
    }

    /**
     * What the cards of a source say of a photograph that another brought.
     *
     * @return whether that has it decided again
     */
    static boolean bear(Handle handle, String source, String photo, Optional<String> says) {
        int witnesses = handle.createUpdate("UPDATE witness SET says = :says WHERE source = :source AND photo = :photo")
                .bind("says", says)
                .bind("source", source)
                .bind("photo", photo)
                .execute();
        return witnesses == 1
                && handle.createUpdate(
                                        "UPDATE photo SET undecided = 1 WHERE hash = :photo AND kept = 1 AND undecided = 0")
                                .bind("photo", photo)
                                .execute()
                        == 1;
    }

    /** A file was taken in that could not be read before; one of that name that was gone in between, and is far in time, was another. */
    static void whole(Handle handle, String source, Arrivals.Sighting file) {
        boolean there = handle.createQuery(
                                "SELECT COUNT(*) FROM sighting WHERE source = :source AND name = :name AND photo IS NULL")
                        .bind("source", source)
                        .bind("name", file.name())
                        .mapTo(Integer.class)
                        .one()
                > 0;
        change(handle, "settled = 1, undecided = 1", "settled = 0", source, file, there);
    }

    /**
     * A file is gone. If it was called a JPEG, it may have been a card all the same; a name that a transfer gives it until it is whole says
     * nothing once there is none of it.
     */
    static void gone(Handle handle, String source, String name) {
        if (!name.toLowerCase(Locale.ROOT).matches(".*\\.jpe?g?")) {
            Arrivals.Sighting file = new Arrivals.Sighting(name, 0, Instant.EPOCH, Optional.empty(), Optional.empty());
            change(handle, "settled = 1, undecided = 1", "settled = 0", source, file, true);
        }
    }

    private static void change(
            Handle handle, String change, String where, String source, Arrivals.Sighting file, boolean anyTime) {
        handle.createUpdate("UPDATE witness SET %s WHERE %s AND %s".formatted(change, where, SAME_FILE))
                .bind("source", source)
                .bind("name", file.name())
                .bind("fileTime", file.fileTime().toEpochMilli())
                .bind("sitting", Rounds.SITTING)
                .bind("anyTime", anyTime ? 1 : 0)
                .execute();
    }

    /** The files of a source that could not be read, near in time. */
    static List<Rounds.Unread> unread(Handle handle, String source, String place, Reach near) {
        return handle.createQuery("""
                        SELECT name, medium, file_time FROM witness
                        WHERE source = :source AND place = :place AND photo IS NULL AND settled = 0
                          AND (%s) ORDER BY name, file_time""".formatted(near.condition("witness")))
                .bind("source", source)
                .bind("place", place)
                .bindMap(near.values())
                .map((result, context) -> new Rounds.Unread(
                        result.getString("name"),
                        result.getInt("medium"),
                        Instant.ofEpochMilli(result.getLong("file_time"))))
                .list();
    }
}
