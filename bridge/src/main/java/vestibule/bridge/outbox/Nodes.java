package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** The processes that serve one outbox. What a node claimed is free again once the node has been silent for longer than it promised. */
public final class Nodes {

    private final Database database;
    private final Clock clock;

    Nodes(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /** Says that a node is alive for that long. */
    public void alive(String node, Duration promised) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate("""
                        INSERT INTO node (name, alive_until) VALUES (:node, :until)
                        ON CONFLICT (name) DO UPDATE SET alive_until = :until""")
                .bind("node", node)
                .bind("until", database.sharedMoment(handle, clock) + promised.toMillis())
                .execute());
    }

    /** Says what keeps a node from going on; nothing where nothing does. The sentences name no patient. */
    public void troubled(String node, List<String> sentences) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate("UPDATE node SET trouble = :trouble WHERE name = :node")
                .bind("trouble", sentences.isEmpty() ? null : String.join("\n", sentences))
                .bind("node", node)
                .execute());
    }

    /**
     * A node that is alive.
     *
     * @param troubles what keeps it from going on
     */
    public record Serving(String node, List<String> troubles) {

        /** With a list that nobody can change. */
        public Serving {
            troubles = List.copyOf(troubles);
        }
    }

    /** The nodes that are alive, in the order of their names. */
    public List<Serving> serving() throws OutboxException {
        return database.reading(handle -> handle.createQuery(
                        "SELECT name, trouble FROM node WHERE alive_until >= :now ORDER BY name")
                .bind("now", database.sharedMoment(handle, clock))
                .map((result, context) -> new Serving(
                        result.getString("name"),
                        Optional.ofNullable(result.getString("trouble"))
                                .map(text -> List.of(text.split("\n")))
                                .orElse(List.of())))
                .list());
    }

    /** Gives up everything that a node claimed: at its start, for what was claimed before died with it, and at its end. */
    public void release(String node) throws OutboxException {
        database.inTransaction(
                handle -> handle.createUpdate("""
                                UPDATE photo SET claimed_by = NULL WHERE hash IN (
                                  SELECT hash FROM photo WHERE claimed_by = :node ORDER BY hash%s)""".formatted(database.dialect().lock()))
                        .bind("node", node)
                        .execute());
    }

    /** Says that a node has ended. */
    public void ended(String node) throws OutboxException {
        release(node);
        database.inTransaction(handle -> handle.createUpdate("DELETE FROM node WHERE name = :node")
                .bind("node", node)
                .execute());
    }
}
