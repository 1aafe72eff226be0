package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.outbox.Database;
import vestibule.bridge.outbox.PhotoState;
import vestibule.conformance.fault.CrashHarness.Run;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.peer.Databases;

@DisplayName("Two nodes on one PostgreSQL, one of them killed")
@Timeout(7200)
class TwoNodesTest {

    private static final int EACH = 8;
    private static final Duration PATIENCE = Duration.ofMinutes(1);

    @TempDir
    Path folder;

    @Test
    @DisplayName("each photograph is delivered once, whether the dead one comes back at once or late")
    void oneKilled() throws Exception {
        int count = Campaign.count("nodes", 1, 20);
        Random random = Campaign.random("nodes");
        for (int i = 0; i < count; i++) {
            // A node that does not come back holds its claims for half a minute, which is too long for every run.
            boolean comesBack = i % 2 == 0;
            oneKilled(Files.createDirectory(folder.resolve("try-" + i)), comesBack, random);
        }
        Campaign.figures("nodes", "%d kills, %d photographs each, all committed once".formatted(count, 2 * EACH));
    }

    private static void oneKilled(Path here, boolean comesBack, Random random) throws Exception {
        Deadly script = new Deadly();
        Database.Address database = Databases.postgresql();
        Path password =
                Files.writeString(here.resolve("password"), database.password().orElseThrow());
        try (ScriptedArchive archive = ScriptedArchive.start(script)) {
            RealRun dying = node(here.resolve("dying"), archive.url(), database, password);
            RealRun staying = node(here.resolve("staying"), archive.url(), database, password);
            dying.photographs(EACH);
            staying.photographsFrom(EACH, EACH);
            try (Run one = dying.serve();
                    Run other = staying.serve()) {
                script.onStore(one::kill, random.nextInt(Mixture.objects(0, EACH)));
                assertThat(one.awaitExit(PATIENCE))
                        .as("%s, the other: %s", one.lines(), other.lines())
                        .contains(RealRun.KILLED);
                script.disarm();
                assertThat(other.askToEnd()).isTrue();
                assertThat(other.awaitExit(PATIENCE)).as("%s", other.lines()).isPresent();
            }
            if (!comesBack) {
                // What the dead one had not taken in by then only its card has; somebody takes it in at the other.
                staying.finishFor(dying);
                staying.finish();
                assertThat(staying.counts()).as("while one is dead").isEqualTo(Map.of(PhotoState.COMMITTED, 2 * EACH));
            }
            dying.finish();
            staying.finish();
            staying.judge("killed, coming back: " + comesBack, archive, List.of(dying), here.resolve("originals"));
        }
    }

    /** A node on the database and the folder of originals that both use. */
    private static RealRun node(Path folder, String archive, Database.Address database, Path password)
            throws IOException {
        return RealRun.in(Files.createDirectory(folder), archive)
                .with("home", "database = \"%s\"".formatted(database.url()))
                .with("home", "database-user = \"%s\"".formatted(database.user().orElseThrow()))
                .with("home", "database-password-file = \"%s\"".formatted(password))
                .with("home", "originals = \"%s\"".formatted(password.resolveSibling("originals")));
    }
}
