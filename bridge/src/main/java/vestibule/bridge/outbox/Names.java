package vestibule.bridge.outbox;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;

/**
 * The names that the bytes of photographs lie, or lay, under. A name says whose a photograph is; another card in the reader, or a copy that
 * somebody deleted, is no answer to a question that came of it. Only a file that was given another name no longer says what it did.
 */
final class Names {

    /** A file that is given another name is gone by the one and there by the other at the next look, though many may take hours to read. */
    private static final long RENAMED_WITHIN = Duration.ofDays(1).toMillis();

    private Names() {}

    /** Other names than those they were taken in by, by the photographs' hashes. */
    static Map<String, List<String>> others(Handle handle, String source) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        handle.createQuery("""
                        SELECT s.photo, s.name FROM sighting s JOIN photo ON photo.hash = s.photo
                        WHERE photo.source = :source AND s.name <> photo.name
                        UNION SELECT f.photo, f.name FROM former_name f JOIN photo ON photo.hash = f.photo
                        WHERE photo.source = :source AND f.name <> photo.name ORDER BY 1, 2""")
                .bind("source", source)
                .map((result, context) -> all.computeIfAbsent(result.getString("photo"), photo -> new ArrayList<>())
                        .add(result.getString("name")))
                .list();
        return all;
    }

    /** The same of one photograph. */
    static List<String> others(Handle handle, String photo, String takenInBy) {
        return handle.createQuery("""
                        SELECT name FROM sighting WHERE photo = :photo AND name <> :name
                        UNION SELECT name FROM former_name WHERE photo = :photo AND name <> :name""")
                .bind("photo", photo)
                .bind("name", takenInBy)
                .mapTo(String.class)
                .list();
    }

    /** Whether a photograph lies, or lay, anywhere under that name. */
    static boolean isKnown(Handle handle, String photo, String name) {
        return handle.createQuery("""
                        SELECT (SELECT COUNT(*) FROM sighting WHERE photo = :photo AND name = :name)
                          + (SELECT COUNT(*) FROM former_name WHERE photo = :photo AND name = :name)
                          + (SELECT COUNT(*) FROM photo WHERE hash = :photo AND name = :name)""")
                        .bind("photo", photo)
                        .bind("name", name)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /** What lay under that name is no longer there, unless it is this photograph: the file is gone, or has other bytes. */
    static void gone(Handle handle, String source, String name, String photo, long now) {
        handle.createUpdate("""
                        INSERT INTO former_name (photo, source, name, gone_at)
                        SELECT s.photo, s.source, s.name, :now FROM sighting s JOIN photo ON photo.hash = s.photo
                        WHERE s.source = :source AND s.name = :name AND s.photo <> :photo
                          AND (s.name <> photo.name OR s.source <> photo.source)
                        ON CONFLICT (photo, source, name) DO UPDATE SET gone_at = :now""")
                .bind("source", source)
                .bind("name", name)
                .bind("photo", photo)
                .bind("now", now)
                .execute();
    }

    /**
     * A photograph is about to be there under that name. If it never was before, and just one name of it went from there, that file was
     * given this name; with several, nobody knows which.
     *
     * @return whether a name no longer counts for that
     */
    static boolean there(Handle handle, String source, String name, String photo, long now) {
        int back = handle.createUpdate(
                        "DELETE FROM former_name WHERE photo = :photo AND source = :source AND name = :name")
                .bind("photo", photo)
                .bind("source", source)
                .bind("name", name)
                .execute();
        return back == 0
                && handle.createUpdate("""
                            DELETE FROM former_name WHERE photo = :photo AND source = :source AND gone_at >= :since
                              AND (SELECT COUNT(*) FROM former_name f WHERE f.photo = :photo AND f.source = :source) = 1
                              AND NOT EXISTS (SELECT 1 FROM sighting WHERE source = :source AND name = :name AND photo = :photo)
                              AND NOT EXISTS (SELECT 1 FROM photo WHERE hash = :photo AND source = :source AND (name = :name
                                OR NOT EXISTS (SELECT 1 FROM sighting s
                                  WHERE s.source = :source AND s.name = photo.name AND s.photo = :photo)))""")
                                .bind("photo", photo)
                                .bind("source", source)
                                .bind("name", name)
                                .bind("since", now - RENAMED_WITHIN)
                                .execute()
                        > 0;
    }
}
