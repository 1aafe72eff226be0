package vestibule.bridge.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("An outbox of an earlier version")
class OldOutboxTest {

    private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
    private static final String PHOTO = "a".repeat(64);

    @TempDir
    Path folder;

    @Test
    @DisplayName(
            "what was taken in before the times were kept at which it was taken is near by the time of its file, and then by both")
    void withoutCaptureTimes() throws Exception {
        Database.Address address = Database.Address.file(folder.resolve("outbox.db"));
        Flyway.configure()
                .dataSource(address.url(), null, null)
                .locations("classpath:vestibule-outbox")
                .placeholders(Map.of("serial", Dialect.SQLITE.serial()))
                .target("10")
                .load()
                .migrate();
        try (Connection connection = DriverManager.getConnection(address.url());
                Statement statement = connection.createStatement()) {
            statement.executeUpdate(
                    "INSERT INTO source (name, folder, place, first_seen) VALUES ('A', 'A', 'here', 0)");
            statement.executeUpdate("""
                    INSERT INTO photo (hash, bytes, place, source, name, file_time, taken_in, state, undecided, decision, revision,
                      to_send, due, attempts, kept)
                    VALUES ('%s', 9, 'here', 'A', 'P.JPG', %d, 0, 'waiting', 0, 'd', 1, 1, 0, 0, 1)""".formatted(PHOTO, NOON.toEpochMilli()));
        }
        try (Outbox outbox = Outbox.open(address, Clock.fixed(NOON, ZoneOffset.UTC))) {
            outbox.nodes().alive("n", Duration.ofDays(1));
            assertThat(outbox.consignments().claim("n", "here", 9)).hasSize(1);
            Instant taken = NOON.minus(Duration.ofDays(2));
            take(outbox, "C.JPG", "c".repeat(64), NOON.plus(Duration.ofDays(2)), NOON);
            assertThat(near(outbox)).contains(PHOTO);
            take(outbox, "P.JPG", PHOTO, NOON, taken);
            assertThat(near(outbox))
                    .as("seen again, and taken days before its file was written")
                    .doesNotContain(PHOTO);
            take(outbox, "D.JPG", "e".repeat(64), NOON.minus(Duration.ofDays(5)), taken);
            assertThat(near(outbox)).contains(PHOTO);
        }
    }

    private static void take(Outbox outbox, String name, String photo, Instant fileTime, Instant captured)
            throws OutboxException {
        outbox.arrivals()
                .record(new Arrivals.Arrival(
                        "A", name, photo, 9, fileTime, Optional.of(captured), "here", Optional.empty()));
    }

    private static List<String> near(Outbox outbox) throws OutboxException {
        return outbox.rulings().toDecide("A", "here", Rulings.Photograph::photo);
    }
}
