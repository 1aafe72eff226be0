package vestibule.bridge.outbox;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;

/** What people, names and other sources say about the photographs of a source; for most of them there is nothing. */
final class Testimony {

    private static final String NEAR = """
            SELECT hash, name, medium, file_time, taken_in,
              CASE WHEN place = :place AND {decided} THEN 0 ELSE 1 END AS elsewhere, 0 AS borne, NULL AS says
            FROM photo WHERE source = :source AND kept = 1 AND ({photo})
            UNION ALL
            SELECT w.photo, w.name, w.medium, w.file_time, p.taken_in, 1, CASE WHEN {borne} THEN 1 ELSE 0 END, w.says
            FROM witness w JOIN photo p ON p.hash = w.photo
            WHERE w.source = :source AND w.place = :place AND p.kept = 1 AND ({w})
            ORDER BY name, hash""";

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

    private record All(
            Map<String, List<Rulings.Said>> said, Map<String, List<String>> names, Map<String, List<String>> heard) {}

    /**
     * The photographs of a source near in time, and those of other sources that lie in it, in the order of their names. Those that are
     * farther off than a sitting bear witness for the others and are not decided: what bears on them may lie farther off still.
     */
    static <T> List<T> near(
            Handle handle, String source, String place, Rounds.Span span, Function<Rulings.Photograph, T> as) {
        All all = new All(said(handle, source), Names.others(handle, source), heard(handle, source));
        String folder = handle.createQuery("SELECT folder FROM source WHERE name = :source")
                .bind("source", source)
                .mapTo(String.class)
                .findOne()
                .orElse(source);
        Reach reach = Reach.of(handle, source, place, span);
        return handle.createQuery(NEAR.replace("{decided}", Reach.decided("photo"))
                        .replace("{borne}", Reach.decided("w"))
                        .replace("{photo}", reach.condition("photo"))
                        .replace("{w}", reach.condition("w")))
                .bind("source", source)
                .bind("place", place)
                .bindMap(Reach.bounds(span))
                .bindMap(reach.values())
                .map((result, context) -> {
                    String hash = result.getString("hash");
                    boolean decidedHere = result.getInt("elsewhere") == 0;
                    return as.apply(new Rulings.Photograph(
                            hash,
                            result.getString("name"),
                            decidedHere ? all.names().getOrDefault(hash, List.of()) : List.of(),
                            source,
                            folder,
                            result.getInt("medium"),
                            Instant.ofEpochMilli(result.getLong("file_time")),
                            Instant.ofEpochMilli(result.getLong("taken_in")),
                            all.said().getOrDefault(hash, List.of()),
                            new Rulings.Elsewhere(
                                    !decidedHere,
                                    result.getInt("borne") == 1,
                                    Optional.ofNullable(result.getString("says")),
                                    decidedHere ? all.heard().getOrDefault(hash, List.of()) : List.of())));
                })
                .list();
    }

    /** What the cards of other sources say of photographs, by their hashes. */
    static Map<String, List<String>> heard(Handle handle, String source) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        handle.createQuery("""
                        SELECT w.photo, w.says FROM witness w JOIN photo ON photo.hash = w.photo
                        WHERE photo.source = :source AND w.says IS NOT NULL ORDER BY w.photo, w.source""")
                .bind("source", source)
                .map((result, context) -> all.computeIfAbsent(result.getString("photo"), photo -> new ArrayList<>())
                        .add(result.getString("says")))
                .list();
        return all;
    }

    /** What people said about photographs, oldest first, by their hashes. */
    static Map<String, List<Rulings.Said>> said(Handle handle, String source) {
        Map<String, List<Rulings.Said>> all = new LinkedHashMap<>();
        handle.createQuery("""
                        SELECT photo, about, answer, said_by, said_at FROM statement
                        WHERE photo IN (SELECT hash FROM photo WHERE source = :source
                          UNION SELECT photo FROM witness WHERE source = :source) ORDER BY id""")
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

    /** Whether nothing was said of a photograph since it was read, by people, names or other sources, and sending it did not begin. */
    static boolean isCurrent(Handle handle, Rulings.Known basis) {
        int said = handle.createQuery("SELECT COUNT(*) FROM statement WHERE photo = :photo")
                .bind("photo", basis.photo())
                .mapTo(Integer.class)
                .one();
        List<String> names =
                Names.others(handle, basis.photo(), basis.photograph().name());
        List<String> heard = handle.createQuery("SELECT says FROM witness WHERE photo = :photo AND says IS NOT NULL")
                .bind("photo", basis.photo())
                .mapTo(String.class)
                .list();
        return said == basis.photograph().said().size()
                && basis.photograph().elsewhere().heard().containsAll(heard)
                && heard.size() == basis.photograph().elsewhere().heard().size()
                && basis.photograph().otherNames().containsAll(names)
                && filed(handle, basis.photo()) == basis.filed();
    }

    private static boolean filed(Handle handle, String photo) {
        return handle.createQuery("SELECT COUNT(*) FROM dicom_object WHERE photo = :photo AND state <> 'made'")
                        .bind("photo", photo)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }
}
