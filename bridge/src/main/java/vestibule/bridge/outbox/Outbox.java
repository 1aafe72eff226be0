package vestibule.bridge.outbox;

import java.time.Clock;

/**
 * The durable list of what must reach the archive. Each of its sides is a class of its own: {@link Arrivals} for what was taken in,
 * {@link Rulings} for what was decided, {@link Consignments} for what is sent, {@link Withdrawals} for what was filed wrongly, {@link
 * Commitments} for what the archive takes responsibility for, {@link Readings} for what was read in photographs, {@link Overview} for looking
 * at it. Whatever returns has been forced to the disk.
 */
public final class Outbox implements AutoCloseable {

    private final Database database;
    private final Arrivals arrivals;
    private final Rulings rulings;
    private final Consignments consignments;
    private final Withdrawals withdrawals;
    private final Commitments commitments;
    private final Copies copies;
    private final Rounds rounds;
    private final Nodes nodes;
    private final Overview overview;
    private final Readings readings;

    private Outbox(Database database, Clock clock) {
        Ledger ledger = new Ledger(database.dialect());
        this.database = database;
        this.arrivals = new Arrivals(database, ledger, clock);
        this.rulings = new Rulings(database, ledger, clock);
        this.consignments = new Consignments(database, ledger, clock);
        this.withdrawals = new Withdrawals(database, ledger, clock);
        this.commitments = new Commitments(database, ledger, clock);
        this.copies = new Copies(database, ledger, clock);
        this.rounds = new Rounds(database, ledger, clock);
        this.nodes = new Nodes(database, clock);
        this.overview = new Overview(database);
        this.readings = new Readings(database);
    }

    /**
     * Opens it, and makes its tables if they are not there.
     *
     * @throws OutboxException if the database cannot be reached or is of a later version
     */
    public static Outbox open(Database.Address address, Clock clock) throws OutboxException {
        return new Outbox(Database.open(address), clock);
    }

    /** What was taken in from which source. */
    public Arrivals arrivals() {
        return arrivals;
    }

    /** What was decided, and what people said. */
    public Rulings rulings() {
        return rulings;
    }

    /** Who is deciding. */
    public Rounds rounds() {
        return rounds;
    }

    /** What is sent. */
    public Consignments consignments() {
        return consignments;
    }

    /** What was filed wrongly and has to be taken back. */
    public Withdrawals withdrawals() {
        return withdrawals;
    }

    /** What the archive takes responsibility for. */
    public Commitments commitments() {
        return commitments;
    }

    /** Our own copies of originals. */
    public Copies copies() {
        return copies;
    }

    /** The processes that serve this outbox. */
    public Nodes nodes() {
        return nodes;
    }

    /** What was read in photographs. */
    public Readings readings() {
        return readings;
    }

    /** Counts and lists. */
    public Overview overview() {
        return overview;
    }

    @Override
    public void close() {
        database.close();
    }
}
