package vestibule.conformance.peer;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Assumptions;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;
import org.testcontainers.utility.DockerImageName;
import vestibule.bridge.outbox.Database;

/**
 * Databases for tests: one server of PostgreSQL for all tests of a Java runtime, and a new database for each that asks. The server runs in
 * a container where there is an engine for them, else from binaries for Linux on amd64.
 */
public final class Databases {

    // Name and version from memory: where this was written there was no container engine to try them.
    private static final DockerImageName IMAGE = DockerImageName.parse("postgres:16-alpine");

    private static final AtomicInteger NUMBER = new AtomicInteger();
    private static Optional<Server> server = Optional.empty();

    private Databases() {}

    /**
     * A running server.
     *
     * @param url its address without the name of a database
     */
    private record Server(String url, String user, String password) {

        Server(String host, int port, String user, String password) {
            this("jdbc:postgresql://%s:%d/".formatted(host, port), user, password);
        }

        void make(String database) throws SQLException {
            try (Connection connection = DriverManager.getConnection(url + "postgres", user, password);
                    Statement statement = connection.createStatement()) {
                statement.execute("CREATE DATABASE " + database);
            }
        }
    }

    /** A file in that folder. */
    public static Database.Address sqlite(Path folder) {
        return Database.Address.file(folder.resolve("outbox.db"));
    }

    /** An empty database of a server of PostgreSQL; the test is skipped where none can be started. */
    public static Database.Address postgresql() throws IOException, SQLException {
        Server running = server();
        String name = "outbox" + NUMBER.incrementAndGet();
        running.make(name);
        return new Database.Address(running.url + name, Optional.of(running.user), Optional.of(running.password));
    }

    private static synchronized Server server() throws IOException {
        if (server.isEmpty()) {
            server = Optional.of(DockerClientFactory.instance().isDockerAvailable() ? container() : binaries());
        }
        return server.get();
    }

    /** It is stopped and taken away when this Java runtime has ended. */
    @SuppressWarnings("resource")
    private static Server container() {
        PostgreSQLContainer container = new PostgreSQLContainer(IMAGE);
        container.start();
        return new Server(
                container.getHost(),
                container.getMappedPort(PostgreSQLContainer.POSTGRESQL_PORT),
                container.getUsername(),
                container.getPassword());
    }

    private static Server binaries() throws IOException {
        String machine = System.getProperty("os.name", "") + " " + System.getProperty("os.arch", "");
        Assumptions.assumeTrue(
                machine.equals("Linux amd64"),
                () -> "binaries of PostgreSQL are there for Linux on amd64, not " + machine);
        EmbeddedPostgres started =
                EmbeddedPostgres.builder().setLocaleConfig("locale", "C.UTF-8").start();
        Runtime.getRuntime().addShutdownHook(new Thread(() -> close(started)));
        return new Server("localhost", started.getPort(), "postgres", "postgres");
    }

    private static void close(EmbeddedPostgres started) {
        try {
            started.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
