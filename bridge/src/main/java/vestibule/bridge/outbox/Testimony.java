package vestibule.bridge.outbox;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/** What people and names say about the photographs of a source; for most of them there is nothing. */
final class Testimony {

    private Testimony() {}

    /** Keeps a person's word; none is ever taken away again. */
    static void insert(Handle handle, String photo, Rulings.Said said) {
        handle.createUpdate("""
                        INSERT INTO statement (photo, about, answer, said_by, said_at)
                        VALUES (:photo, :about, :answer, :by, :at)""")
                .bind("photo", photo)
                .bind("about", said.about())
                .bind("answer", said.answer())
                .bind("by", said.by())
                .bind("at", said.at().toEpochMilli())
                .execute();
    }

    /** Other names that the bytes of photographs were seen under, by their hashes. */
    static Map<String, List<String>> otherNames(Handle handle, String source) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        handle.createQuery("""
                        SELECT DISTINCT s.photo, s.name FROM sighting s JOIN photo ON photo.hash = s.photo
                        WHERE photo.source = :source AND s.name <> photo.name ORDER BY s.photo, s.name""")
                .bind("source", source)
                .map((result, context) -> all.computeIfAbsent(result.getString("photo"), photo -> new ArrayList<>())
                        .add(result.getString("name")))
                .list();
        return all;
    }

    /** What people said about photographs, oldest first, by their hashes. */
    static Map<String, List<Rulings.Said>> said(Handle handle, String source) {
        Map<String, List<Rulings.Said>> all = new LinkedHashMap<>();
        handle.createQuery("""
                        SELECT photo, about, answer, said_by, said_at FROM statement
                        WHERE photo IN (SELECT hash FROM photo WHERE source = :source) ORDER BY id""")
                .bind("source", source)
                .map((result, context) -> {
                    all.computeIfAbsent(result.getString("photo"), photo -> new ArrayList<>())
                            .add(new Rulings.Said(
                                    result.getString("about"),
                                    result.getString("answer"),
                                    Optional.ofNullable(result.getString("said_by")),
                                    Instant.ofEpochMilli(result.getLong("said_at"))));
                    return 1;
                })
                .list();
        return all;
    }
}
