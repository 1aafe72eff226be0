package vestibule.bridge.outbox;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;

/**
 * The memory cards that lie in a source one after another. Nothing on a memory card says which it is, so it is known again by the photographs on
 * it: where one lies there as it was, the card is the same; where there are files and none of those was there before, it is another one, or
 * one that was cleared. Other files say nothing, for cameras write some under the same name on each card, nor does what a person set aside,
 * which may be a picture that lies on all of them.
 */
final class Media {

    private static final int NAMES_AT_ONCE = 200;

    private static final String NOT_SET_ASIDE = """
            NOT EXISTS (SELECT 1 FROM statement said WHERE said.photo = photo.hash AND said.about IN ('discard', 'not-a-photograph'))""";

    private static final String PHOTOGRAPHS = """
            SELECT s.name, s.bytes, s.file_time, CASE WHEN photo.source = :source THEN photo.medium ELSE w.medium END AS medium
            FROM sighting s JOIN photo ON photo.hash = s.photo LEFT JOIN witness w ON w.source = s.source AND w.photo = s.photo
            WHERE s.source = :source AND s.name IN (<names>) AND {apart}
            UNION ALL SELECT name, bytes, file_time, medium FROM photo WHERE source = :source AND name IN (<names>) AND {apart}
            UNION ALL SELECT w.name, photo.bytes, w.file_time, w.medium FROM witness w JOIN photo ON photo.hash = w.photo
            WHERE w.source = :source AND w.name IN (<names>) AND {apart}""".replace("{apart}", NOT_SET_ASIDE);

    private Media() {}

    private record Row(Arrivals.Lying file, Optional<Integer> medium) {}

    /** Says what lies in a source; what is taken in from now on is of the card that it is. */
    static void lie(Handle handle, String source, List<Arrivals.Lying> files) {
        if (files.isEmpty()) {
            return;
        }
        Optional<Integer> known = IntStream.iterate(0, from -> from < files.size(), from -> from + NAMES_AT_ONCE)
                .mapToObj(from -> files.subList(from, Math.min(files.size(), from + NAMES_AT_ONCE)))
                .flatMap(some -> known(handle, source, some).stream())
                .max(Integer::compare);
        int medium = known.or(() -> unread(handle, source, files)).orElseGet(() -> another(handle, source));
        handle.createUpdate("UPDATE source SET medium = :medium WHERE name = :source AND medium <> :medium")
                .bind("source", source)
                .bind("medium", medium)
                .execute();
    }

    private static Optional<Integer> known(Handle handle, String source, List<Arrivals.Lying> files) {
        Map<String, Arrivals.Lying> byName =
                files.stream().collect(Collectors.toMap(Arrivals.Lying::name, file -> file, (one, other) -> one));
        return handle
                .createQuery(PHOTOGRAPHS)
                .bind("source", source)
                .bindList("names", byName.keySet())
                .map((result, context) -> new Row(
                        new Arrivals.Lying(
                                result.getString("name"),
                                result.getLong("bytes"),
                                Instant.ofEpochMilli(result.getLong("file_time"))),
                        Optional.ofNullable(result.getObject("medium")).map(medium -> ((Number) medium).intValue())))
                .stream()
                .filter(row -> isSame(byName.get(row.file().name()), row.file()))
                .flatMap(row -> row.medium().stream())
                .max(Integer::compare);
    }

    /** The outbox keeps times of files to the millisecond. */
    private static boolean isSame(Arrivals.@Nullable Lying there, Arrivals.Lying kept) {
        return there != null
                && there.bytes() == kept.bytes()
                && there.fileTime().toEpochMilli() == kept.fileTime().toEpochMilli();
    }

    /**
     * The card that lay there, where nothing was taken in from what lay there at the last look, and a photograph that was not whole then lies
     * there still: it grew.
     */
    private static Optional<Integer> unread(Handle handle, String source, List<Arrivals.Lying> files) {
        Map<String, Arrivals.Lying> byName = files.stream()
                .filter(file -> file.name().toLowerCase(Locale.ROOT).matches(".*\\.jpe?g?"))
                .collect(Collectors.toMap(Arrivals.Lying::name, file -> file, (one, other) -> one));
        boolean grew = handle
                .createQuery("""
                        SELECT name, bytes, file_time FROM sighting WHERE source = :source AND photo IS NULL
                          AND NOT EXISTS (SELECT 1 FROM sighting s WHERE s.source = :source AND s.photo IS NOT NULL)""")
                .bind("source", source)
                .map((result, context) -> Optional.ofNullable(byName.get(result.getString("name")))
                        .filter(grownFrom(result.getLong("bytes"), result.getLong("file_time")))
                        .isPresent())
                .stream()
                .anyMatch(same -> same);
        return grew
                ? handle.createQuery("SELECT medium FROM source WHERE name = :source")
                        .bind("source", source)
                        .mapTo(Integer.class)
                        .findOne()
                : Optional.empty();
    }

    private static Predicate<Arrivals.Lying> grownFrom(long bytes, long fileTime) {
        return file -> file.bytes() >= bytes && file.fileTime().toEpochMilli() >= fileTime;
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
