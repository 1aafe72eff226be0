package vestibule.conformance.peer;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Assumptions;
import vestibule.bridge.outbox.Database;

/** Databases for tests: one server of PostgreSQL for all tests of a Java runtime, from Debian-free binaries, a new database for each that asks. */
public final class Databases {

    private static final AtomicInteger NUMBER = new AtomicInteger();
    private static Optional<EmbeddedPostgres> server = Optional.empty();

    private Databases() {}

    /** A file in that folder. */
    public static Database.Address sqlite(Path folder) {
        return Database.Address.file(folder.resolve("outbox.db"));
    }

    /** An empty database of a server of PostgreSQL; the test is skipped where none can be started. */
    public static Database.Address postgresql() throws IOException, SQLException {
        EmbeddedPostgres running = server();
        String name = "outbox" + NUMBER.incrementAndGet();
        try (Connection connection = running.getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE DATABASE " + name);
        }
        return new Database.Address(
                running.getJdbcUrl("postgres", name), Optional.of("postgres"), Optional.of("postgres"));
    }

    private static synchronized EmbeddedPostgres server() throws IOException {
        String machine = System.getProperty("os.name", "") + " " + System.getProperty("os.arch", "");
        Assumptions.assumeTrue(
                machine.equals("Linux amd64"),
                () -> "binaries of PostgreSQL are there for Linux on amd64, not " + machine);
        if (server.isEmpty()) {
            EmbeddedPostgres started = EmbeddedPostgres.builder()
                    .setLocaleConfig("locale", "C.UTF-8")
                    .start();
            Runtime.getRuntime().addShutdownHook(new Thread(() -> close(started)));
            server = Optional.of(started);
        }
        return server.get();
    }

    private static void close(EmbeddedPostgres started) {
        try {
            started.close();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
