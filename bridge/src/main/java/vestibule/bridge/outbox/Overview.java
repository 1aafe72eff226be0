package vestibule.bridge.outbox;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;

/** Counts and lists, for people and machines that look at the outbox. */
public final class Overview {

    private final Database database;

    Overview(Database database) {
        this.database = database;
    }

    /** A photograph as lists show it. */
    public record Photograph(
            String photo,
            String name,
            String source,
            PhotoState state,
            Optional<String> reason,
            Optional<String> message,
            Optional<String> proposal,
            Optional<String> aside,
            Optional<String> note) {}

    /**
     * A source as lists show it.
     *
     * @param folder where it lies
     * @param node on whose computer, as far as that is known; empty text where the outbox is of one home
     */
    public record Source(
            String name,
            String folder,
            Optional<String> node,
            String place,
            Optional<Instant> lookedAt,
            Optional<String> trouble) {}

    /**
     * What became of the files of a source.
     *
     * @param photos how many photographs lie in it
     * @param states of those, how many are in which state
     * @param copies of those, how many we keep a copy of
     * @param again of those, how many are committed or set aside while they, or others that bear on them, are to be decided
     * @param leftBehind files that were not taken in
     * @param proofs what commitment rests on: {@code commitment}, {@code read-back}
     */
    public record Fate(
            int photos, Map<PhotoState, Integer> states, int copies, int again, int leftBehind, List<String> proofs) {

        public Fate {
            states = Map.copyOf(states);
            proofs = List.copyOf(proofs);
        }

        /** How many are in that state. */
        public int in(PhotoState state) {
            return states.getOrDefault(state, 0);
        }
    }

    /** A change of a photograph. */
    public record Change(Instant at, Optional<String> before, String after, String cause) {}

    /** How many photographs are in each state. */
    public Map<PhotoState, Integer> counts() throws OutboxException {
        return database.reading(
                handle -> counts(handle.createQuery("SELECT state, COUNT(*) AS n FROM photo GROUP BY state")));
    }

    private static Map<PhotoState, Integer> counts(Query query) {
        Map<PhotoState, Integer> counts = new EnumMap<>(PhotoState.class);
        query.map((result, context) -> Map.entry(PhotoState.of(result.getString("state")), result.getInt("n")))
                .forEach(entry -> counts.put(entry.getKey(), entry.getValue()));
        return counts;
    }

    /** Photographs in any of those states, in the order they were taken in. */
    public List<Photograph> in(PhotoState first, PhotoState second) throws OutboxException {
        return photographs("state IN (:first, :second)", Map.of("first", first.word(), "second", second.word()));
    }

    /** Photographs that came from a source or lie in it and wait for a person, in the order they were taken in. */
    public List<Photograph> waitingForAPerson(String source) throws OutboxException {
        return photographs(
                "state IN (:attention, :rejected) AND (source = :source OR hash IN (SELECT photo FROM sighting WHERE source = :source))",
                Map.of(
                        "attention", PhotoState.NEEDS_ATTENTION.word(),
                        "rejected", PhotoState.REJECTED.word(),
                        "source", source));
    }

    /** Whether photographs whose copies lie there are to be decided, for the first time or again, or are being decided. */
    public boolean isDeciding(String place) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT (SELECT COUNT(*) FROM photo WHERE undecided = 1 AND kept = 1 AND place = :place)
                          + (SELECT COUNT(*) FROM witness WHERE undecided = 1 AND place = :place)
                          + (SELECT COUNT(*) FROM deciding_round WHERE place = :place)""")
                        .bind("place", place)
                        .mapTo(Integer.class)
                        .one()
                > 0);
    }

    /** Whether a photograph is still to be decided; and whether our copy of it is there, without which it cannot be. */
    public record Pending(boolean undecided, boolean kept) {}

    /** How a photograph stands that a person just said something about. */
    public Pending pending(String photo) throws OutboxException {
        return database.reading(handle -> handle.createQuery("SELECT undecided, kept FROM photo WHERE hash = :photo")
                .bind("photo", photo)
                .map((result, context) -> new Pending(result.getInt("undecided") != 0, result.getInt("kept") != 0))
                .one());
    }

    /** Photographs the archive said something about, in the order they were taken in. */
    public List<Photograph> noted() throws OutboxException {
        return photographs("note IS NOT NULL OR not_committed IS NOT NULL", Map.of());
    }

    /** As a condition on a name: it is that word, or the part after its last folder is. Binds {@code :word}. */
    private static final String CALLED = "(%1$s = :word OR SUBSTR(%1$s, LENGTH(%1$s) - LENGTH(:word)) = '/' || :word)";

    private static final int SHORTEST_HASH = 4;

    /**
     * Photographs by the beginning of their hash, or by a name that their bytes lie or lay under: the whole of it, or the part after the
     * last folder.
     */
    public List<Photograph> named(String word) throws OutboxException {
        return photographs(
                "hash = :lower OR (LENGTH(:lower) >= %d AND SUBSTR(hash, 1, LENGTH(:lower)) = :lower) OR %s OR hash IN (SELECT s.photo FROM sighting s WHERE %s)"
                        .formatted(SHORTEST_HASH, CALLED.formatted("name"), CALLED.formatted("s.name")),
                Map.of("lower", word.toLowerCase(Locale.ROOT), "word", word));
    }

    /** Whether a word that names a photograph is the beginning of its hash, which no other one ever has. */
    public static boolean isByHash(String word, Photograph photograph) {
        return word.length() >= SHORTEST_HASH && photograph.photo().startsWith(word.toLowerCase(Locale.ROOT));
    }

    /** Whether a photograph lay in a source under that name at the last look. */
    public boolean lies(String photo, String word) throws OutboxException {
        return database.reading(handle ->
                handle.createQuery("SELECT COUNT(*) FROM sighting WHERE photo = :photo AND " + CALLED.formatted("name"))
                                .bind("photo", photo)
                                .bind("word", word)
                                .mapTo(Integer.class)
                                .one()
                        > 0);
    }

    /** Whether an object of a photograph is still to be taken back in the archive, as status asks a person to. */
    public boolean isTakenBack(String photo) throws OutboxException {
        return database.reading(handle ->
                handle.createQuery("SELECT COUNT(*) FROM withdrawal WHERE photo = :photo AND settled_at IS NULL")
                                .bind("photo", photo)
                                .mapTo(Integer.class)
                                .one()
                        > 0);
    }

    /** A file that lay in a source at the last look and was not taken in, and why. */
    public record LeftBehind(String source, String name, String sentence) {}

    /** Files of that name that lie in a source and were not taken in, or that could not be read there by a look that did not end well. */
    public List<LeftBehind> leftBehind(String word) throws OutboxException {
        return database.reading(
                handle -> handle.createQuery("""
                        SELECT source, name, COALESCE(sentence, 'it was not taken in') AS why FROM sighting
                        WHERE photo IS NULL AND %s
                        UNION ALL
                        SELECT w.source, w.name, 'it could not be read' FROM witness w JOIN source ON source.name = w.source
                        WHERE w.photo IS NULL AND w.settled = 0 AND source.trouble IS NOT NULL AND %s
                        ORDER BY source, name, why""".formatted(CALLED.formatted("name"), CALLED.formatted("w.name")))
                        .bind("word", word)
                        .map((result, context) -> new LeftBehind(
                                result.getString("source"), result.getString("name"), result.getString("why")))
                        .list());
    }

    private List<Photograph> photographs(String condition, Map<String, String> values) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT hash, name, source, state, reason, message, proposal, aside,
                          note, not_committed FROM photo
                        WHERE %s ORDER BY taken_in, name, hash""".formatted(condition))
                .bindMap(values)
                .map((result, context) -> new Photograph(
                        result.getString("hash"),
                        result.getString("name"),
                        result.getString("source"),
                        PhotoState.of(result.getString("state")),
                        Optional.ofNullable(result.getString("reason")),
                        Optional.ofNullable(result.getString("message")),
                        Optional.ofNullable(result.getString("proposal")),
                        Optional.ofNullable(result.getString("aside")),
                        note(result.getString("note"), result.getString("not_committed"))))
                .list());
    }

    /** What lasts and what passes, in one sentence. */
    private static Optional<String> note(@Nullable String lasting, @Nullable String notCommitted) {
        return Stream.of(
                        Optional.ofNullable(lasting),
                        Optional.ofNullable(notCommitted).map(why -> "not committed yet: " + why))
                .flatMap(Optional::stream)
                .reduce((first, next) -> first + "; " + next);
    }

    /** What is decided of a photograph, or else what is proposed; empty where neither is. */
    public Optional<String> decision(String photo) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT CASE WHEN reason IS NULL OR delivery = 1 THEN decision ELSE proposal END AS text
                        FROM photo WHERE hash = :photo""")
                .bind("photo", photo)
                .map((result, context) -> Optional.ofNullable(result.getString("text")))
                .findOne()
                .flatMap(text -> text));
    }

    /** How the sittings stand of which a photograph was taken in since then, in the order of time. */
    public List<String> sittings(Instant since) throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT state FROM sitting WHERE taken_in >= :since ORDER BY taken_in, photo")
                .bind("since", since.toEpochMilli())
                .mapTo(String.class)
                .list());
    }

    /** Every source, in the order of names. */
    public List<Source> sources() throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT name, folder, node, place, looked_at, trouble FROM source ORDER BY name")
                .map((result, context) -> {
                    long looked = result.getLong("looked_at");
                    return new Source(
                            result.getString("name"),
                            result.getString("folder"),
                            Optional.ofNullable(result.getString("node")),
                            result.getString("place"),
                            looked == 0 ? Optional.empty() : Optional.of(Instant.ofEpochMilli(looked)),
                            Optional.ofNullable(result.getString("trouble")));
                })
                .list());
    }

    /** What became of the files that lay in a source at the last look; a photograph that lies there twice counts once. */
    public Fate fate(String source) throws OutboxException {
        return database.reading(handle -> {
            String there = "hash IN (SELECT photo FROM sighting WHERE source = :source AND photo IS NOT NULL)";
            // Asked first: what is decided meanwhile then shows in the states
            int again = handle.createQuery(
                            "SELECT COUNT(*) FROM photo WHERE kept = 1 AND state IN ('committed', 'set-aside') AND NOT (%s) AND %s"
                                    .formatted(Rounds.NOTHING_TO_DECIDE_NEAR, there))
                    .bind("sitting", Rounds.SITTING)
                    .bind("source", source)
                    .mapTo(Integer.class)
                    .one();
            Map<PhotoState, Integer> states = counts(
                    handle.createQuery("SELECT state, COUNT(*) AS n FROM photo WHERE " + there + " GROUP BY state")
                            .bind("source", source));
            int copies = handle.createQuery("SELECT COUNT(*) FROM photo WHERE kept = 1 AND " + there)
                    .bind("source", source)
                    .mapTo(Integer.class)
                    .one();
            int leftBehind = handle.createQuery(
                            "SELECT COUNT(*) FROM sighting WHERE source = :source AND photo IS NULL")
                    .bind("source", source)
                    .mapTo(Integer.class)
                    .one();
            List<String> proofs = handle.createQuery("""
                            SELECT DISTINCT proof FROM dicom_object WHERE proof IS NOT NULL AND photo IN (
                              SELECT photo FROM sighting WHERE source = :source AND photo IS NOT NULL) ORDER BY proof""")
                    .bind("source", source)
                    .mapTo(String.class)
                    .list();
            int photos = states.values().stream().mapToInt(Integer::intValue).sum();
            return new Fate(photos, states, copies, again, leftBehind, proofs);
        });
    }

    /**
     * A copy that we keep of a photograph.
     *
     * @param doubted whether it was once found damaged, or not to be read, so that its length says too little
     */
    public record Copy(String photo, long bytes, boolean doubted) {}

    /** The copies there of photographs that lay in a source at the last look. */
    public List<Copy> copies(String source, String place) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT hash, bytes, EXISTS (SELECT 1 FROM transition t WHERE t.photo = photo.hash
                            AND t.cause IN ('original-damaged', 'unreadable')) AS doubted
                        FROM photo WHERE kept = 1 AND place = :place
                          AND hash IN (SELECT photo FROM sighting WHERE source = :source AND photo IS NOT NULL)""")
                .bind("place", place)
                .bind("source", source)
                .map((result, context) ->
                        new Copy(result.getString("hash"), result.getLong("bytes"), result.getBoolean("doubted")))
                .list());
    }

    /** Everything that happened to a photograph, oldest first. */
    public List<Change> history(String photo) throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT at, before, after, cause FROM transition WHERE photo = :photo ORDER BY id")
                .bind("photo", photo)
                .map((result, context) -> new Change(
                        Instant.ofEpochMilli(result.getLong("at")),
                        Optional.ofNullable(result.getString("before")),
                        result.getString("after"),
                        result.getString("cause")))
                .list());
    }

    /** A change of a photograph, among those of all. */
    public record Event(String photo, Instant at, Optional<String> before, String after, String cause) {}

    /** The latest changes of all photographs, latest first. */
    public List<Event> latest(int most) throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT photo, at, before, after, cause FROM transition ORDER BY id DESC LIMIT :most")
                .bind("most", most)
                .map((result, context) -> new Event(
                        result.getString("photo"),
                        Instant.ofEpochMilli(result.getLong("at")),
                        Optional.ofNullable(result.getString("before")),
                        result.getString("after"),
                        result.getString("cause")))
                .list());
    }

    /** When the photograph that waits longest was taken in. */
    public OptionalLong oldestWaiting() throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT taken_in FROM photo WHERE state = 'waiting' ORDER BY taken_in LIMIT 1")
                .mapTo(Long.class)
                .findOne()
                .map(OptionalLong::of)
                .orElse(OptionalLong.empty()));
    }

    /** How many objects are in each state. */
    public Map<String, Integer> objects() throws OutboxException {
        return database.reading(handle -> {
            Map<String, Integer> counts = new java.util.TreeMap<>();
            handle.createQuery("SELECT state, COUNT(*) AS n FROM dicom_object GROUP BY state")
                    .map((result, context) -> Map.entry(result.getString("state"), result.getInt("n")))
                    .forEach(entry -> counts.put(entry.getKey(), entry.getValue()));
            return counts;
        });
    }
}
