package vestibule.bridge.outbox;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.transaction.TransactionIsolationLevel;

/** The database under an outbox: connections, migrations, transactions. */
public final class Database implements AutoCloseable {

    private static final int LONGEST_WAIT_FOR_A_LOCK = 20_000;
    private static final int CONNECTIONS = 6;
    private static final String SQLITE = "jdbc:sqlite:";
    /** Every commit is on the disk when it returns (SQLite's own documentation of PRAGMA synchronous). */
    private static final String SQLITE_OPTIONS =
            "?journal_mode=WAL&busy_timeout=%d&synchronous=FULL&foreign_keys=on&transaction_mode=IMMEDIATE"
                    .formatted(LONGEST_WAIT_FOR_A_LOCK);

    private final HikariDataSource pool;
    private final Jdbi jdbi;
    private final Dialect dialect;

    /** Work in one transaction. */
    interface Work<T> {
        T with(Handle handle) throws SQLException;
    }

    /**
     * Where the database is.
     *
     * @param url {@code jdbc:…}
     * @param user who asks, where the database wants to know
     * @param password of the user
     */
    public record Address(String url, Optional<String> user, Optional<String> password) {

        /** A file of this computer; never on a network folder, where locks do not hold. */
        public static Address file(Path file) {
            return new Address(SQLITE + file.toAbsolutePath(), Optional.empty(), Optional.empty());
        }

        /** Without the password. */
        @Override
        public String toString() {
            return url;
        }
    }

    private Database(HikariDataSource pool, Dialect dialect) {
        this.pool = pool;
        this.jdbi = Jdbi.create(pool);
        this.dialect = dialect;
    }

    /**
     * Opens a database and brings its tables to the form this version wants.
     *
     * @throws OutboxException if it cannot be reached, or is of a later version
     */
    public static Database open(Address address) throws OutboxException {
        Dialect dialect = address.url().startsWith(SQLITE) ? Dialect.SQLITE : Dialect.POSTGRESQL;
        HikariConfig config = new HikariConfig();
        config.setPoolName("outbox");
        config.setJdbcUrl(dialect == Dialect.SQLITE ? address.url() + SQLITE_OPTIONS : address.url());
        address.user().ifPresent(config::setUsername);
        address.password().ifPresent(config::setPassword);
        config.setMaximumPoolSize(CONNECTIONS);
        config.setMinimumIdle(1);
        config.setInitializationFailTimeout(1);
        try {
            HikariDataSource pool = new HikariDataSource(config);
            try {
                migrate(pool, dialect);
                return new Database(pool, dialect);
            } catch (FlywayException e) {
                pool.close();
                throw e;
            }
        } catch (RuntimeException e) {
            throw new OutboxException(
                    "the outbox at %s cannot be opened (%s); check that its server runs and its folder can be written"
                            .formatted(address, firstLine(e)),
                    e);
        }
    }

    private static void migrate(HikariDataSource pool, Dialect dialect) {
        Flyway.configure(Database.class.getClassLoader())
                .dataSource(pool)
                .locations("classpath:vestibule-outbox")
                .failOnMissingLocations(true)
                .placeholders(Map.of("serial", dialect.serial()))
                .load()
                .migrate();
    }

    Dialect dialect() {
        return dialect;
    }

    /**
     * The moment by which it is told whether a node is alive, in milliseconds: that of the server where nodes on several computers share it,
     * whose own clocks need not agree.
     *
     * @param clock the clock of this computer
     */
    long sharedMoment(Handle handle, Clock clock) {
        return dialect == Dialect.SQLITE
                ? clock.millis()
                : handle.createQuery("SELECT CAST(EXTRACT(EPOCH FROM clock_timestamp()) * 1000 AS BIGINT)")
                        .mapTo(Long.class)
                        .one();
    }

    /** All of it, or nothing. */
    <T> T inTransaction(Work<T> work) throws OutboxException {
        try {
            return dialect == Dialect.SQLITE
                    ? jdbi.inTransaction(work::with)
                    : jdbi.inTransaction(TransactionIsolationLevel.READ_COMMITTED, work::with);
        } catch (SQLException | JdbiException e) {
            throw new OutboxException(
                    "the outbox could not be read or written (%s); it is tried again".formatted(firstLine(e)), e);
        }
    }

    /** Reading, each statement for itself. */
    <T> T reading(Work<T> work) throws OutboxException {
        try {
            return jdbi.withHandle(work::with);
        } catch (SQLException | JdbiException e) {
            throw new OutboxException("the outbox could not be read (%s)".formatted(firstLine(e)), e);
        }
    }

    /** The innermost cause in one line; JDBI's own text repeats the bound values, which may name a patient. */
    private static String firstLine(Throwable e) {
        Throwable cause = e;
        while (cause.getCause() != null && cause.getCause() != cause) {
            cause = cause.getCause();
        }
        String text =
                cause instanceof JdbiException ? cause.getClass().getSimpleName() : String.valueOf(cause.getMessage());
        return text.lines().findFirst().orElse("no reason given");
    }

    @Override
    public void close() {
        pool.close();
    }
}
