package vestibule.bridge.outbox;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;

/**
 * The memory cards that lie in a source one after another. Nothing on a memory card says which it is, so it is known again by what lies on it:
 * where one file is as it was, the card is the same; where files lie there and none was there before, it is another one, or one that was
 * cleared.
 */
final class Media {

    private static final int NAMES_AT_ONCE = 200;

    private static final String KNOWN = """
            SELECT s.name, s.bytes, CASE WHEN s.photo IS NULL THEN source.medium WHEN photo.source = :source THEN photo.medium
                ELSE w.medium END AS medium, CASE WHEN s.photo IS NULL THEN 1 ELSE 0 END AS unread
            FROM sighting s JOIN source ON source.name = s.source LEFT JOIN photo ON photo.hash = s.photo
              LEFT JOIN witness w ON w.source = s.source AND w.photo = s.photo
            WHERE s.source = :source AND s.name IN (<names>)
            UNION ALL SELECT name, bytes, medium, 0 FROM photo WHERE source = :source AND name IN (<names>)
            UNION ALL SELECT w.name, COALESCE(photo.bytes, 0), w.medium, CASE WHEN w.photo IS NULL THEN 1 ELSE 0 END
            FROM witness w LEFT JOIN photo ON photo.hash = w.photo WHERE w.source = :source AND w.name IN (<names>)""";

    private Media() {}

    private record Row(String name, long bytes, Optional<Integer> medium, boolean unread) {

        boolean is(Arrivals.Lying file) {
            return medium.isPresent() && (unread || bytes == file.bytes());
        }
    }

    /** Says what lies in a source; what is taken in from now on is of the card that it is. */
    static void lie(Handle handle, String source, List<Arrivals.Lying> files) {
        if (files.isEmpty()) {
            return;
        }
        Optional<Integer> known = Optional.empty();
        for (int from = 0; from < files.size() && known.isEmpty(); from += NAMES_AT_ONCE) {
            known = known(handle, source, files.subList(from, Math.min(files.size(), from + NAMES_AT_ONCE)));
        }
        handle.createUpdate("UPDATE source SET medium = :medium WHERE name = :source AND medium <> :medium")
                .bind("source", source)
                .bind("medium", known.isPresent() ? known.get() : another(handle, source))
                .execute();
    }

    private static Optional<Integer> known(Handle handle, String source, List<Arrivals.Lying> files) {
        Map<String, Arrivals.Lying> byName =
                files.stream().collect(Collectors.toMap(Arrivals.Lying::name, file -> file, (one, other) -> one));
        return handle
                .createQuery(KNOWN)
                .bind("source", source)
                .bindList("names", byName.keySet())
                .map((result, context) -> new Row(
                        result.getString("name"),
                        result.getLong("bytes"),
                        Optional.ofNullable(result.getObject("medium")).map(medium -> ((Number) medium).intValue()),
                        result.getInt("unread") == 1))
                .stream()
                .filter(row -> Optional.ofNullable(byName.get(row.name()))
                        .filter(row::is)
                        .isPresent())
                .flatMap(row -> row.medium().stream())
                .max(Integer::compare);
    }

    /** One that has brought nothing yet. */
    private static int another(Handle handle, String source) {
        return handle.createQuery("""
                        SELECT MAX(medium) FROM (SELECT MAX(medium) + 1 AS medium FROM photo WHERE source = :source
                          UNION ALL SELECT MAX(medium) + 1 FROM witness WHERE source = :source) AS next""")
                .bind("source", source)
                .mapTo(Integer.class)
                .findOne()
                .orElse(0);
    }
}
