package vestibule.bridge.outbox;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;

/**
 * How far in time what bears on the photographs of a round may lie: within a sitting of anything that is decided in it. What is near by the
 * time it was taken may be far by the time of its file, and then what is near that bears on it as well.
 */
final class Reach {

    /** More of them make one that holds them all: a query does not take any number. */
    private static final int MOST = 16;

    private final List<Stretch> files;
    private final List<Stretch> captures;

    private Reach(List<Stretch> files, List<Stretch> captures) {
        this.files = files;
        this.captures = captures;
    }

    /** Times from one to another, both of them included. */
    private record Stretch(long from, long to) {}

    /** As a condition on a row of that table: it is decided, or asked, in a round of the span whose {@link #bounds} are bound. */
    static String decided(String table) {
        return "({table}.file_time BETWEEN :first AND :last OR {table}.captured BETWEEN :firstTaken AND :lastTaken)"
                .replace("{table}", table);
    }

    static Map<String, Long> bounds(Rounds.Span span) {
        return Map.of(
                "first",
                span.earliest() - Rounds.SITTING,
                "last",
                span.latest() + Rounds.SITTING,
                "firstTaken",
                span.firstCaptured() - Rounds.SITTING,
                "lastTaken",
                span.lastCaptured() + Rounds.SITTING);
    }

    static Reach of(Handle handle, String source, String place, Rounds.Span span) {
        return new Reach(
                stretches(handle, "file_time", source, place, span),
                stretches(handle, "captured", source, place, span));
    }

    private static List<Stretch> stretches(Handle handle, String time, String source, String place, Rounds.Span span) {
        List<Stretch> stretches = new ArrayList<>();
        handle.createQuery("""
                        SELECT {time} FROM photo WHERE source = :source AND kept = 1 AND file_time BETWEEN :first AND :last
                        UNION SELECT {time} FROM photo WHERE source = :source AND kept = 1 AND captured BETWEEN :firstTaken AND :lastTaken
                        UNION SELECT {time} FROM witness WHERE source = :source AND place = :place AND file_time BETWEEN :first AND :last
                        UNION SELECT {time} FROM witness WHERE source = :source AND place = :place
                          AND captured BETWEEN :firstTaken AND :lastTaken
                        ORDER BY 1""".replace("{time}", time))
                .bind("source", source)
                .bind("place", place)
                .bindMap(bounds(span))
                .mapTo(Long.class)
                .forEach(moment -> add(stretches, moment));
        return stretches.size() <= MOST
                ? stretches
                : List.of(new Stretch(
                        stretches.get(0).from(),
                        stretches.get(stretches.size() - 1).to()));
    }

    /** Times come in their order. */
    private static void add(List<Stretch> stretches, long moment) {
        int last = stretches.size() - 1;
        Stretch around = new Stretch(moment - Rounds.SITTING, moment + Rounds.SITTING);
        if (last >= 0 && around.from() <= stretches.get(last).to()) {
            stretches.set(last, new Stretch(stretches.get(last).from(), around.to()));
        } else {
            stretches.add(around);
        }
    }

    /** As a condition on a row of that table; binds {@link #values}. */
    String condition(String table) {
        return files.isEmpty()
                ? "1 = 0"
                : Stream.concat(
                                condition(table + ".file_time", "file", files),
                                condition(table + ".captured", "capture", captures))
                        .collect(Collectors.joining(" OR "));
    }

    private static Stream<String> condition(String column, String name, List<Stretch> stretches) {
        return IntStream.range(0, stretches.size())
                .mapToObj(i -> "%s BETWEEN :%sFrom%d AND :%sTo%d".formatted(column, name, i, name, i));
    }

    Map<String, Long> values() {
        Map<String, Long> values = new HashMap<>();
        put(values, "file", files);
        put(values, "capture", captures);
        return values;
    }

    private static void put(Map<String, Long> values, String name, List<Stretch> stretches) {
        for (int i = 0; i < stretches.size(); i++) {
            values.put(name + "From" + i, stretches.get(i).from());
            values.put(name + "To" + i, stretches.get(i).to());
        }
    }
}
