package vestibule.conformance.fault;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("A program that is killed without warning")
@Timeout(60)
class CrashHarnessTest {

    private static final Duration PATIENCE = Duration.ofSeconds(30);
    private static final int KILLED = 128 + 9;

    @TempDir
    Path folder;

    private CrashHarness.Run archive() throws Exception {
        return CrashHarness.ofClass("vestibule.bridge.app.Main")
                .start(List.of(
                        "archive",
                        "--port",
                        "0",
                        "--folder",
                        folder.resolve("archive").toString()));
    }

    @Test
    @DisplayName("says its lines, is killed, and gets no chance to tidy up")
    void killed() throws Exception {
        try (CrashHarness.Run run = archive()) {
            assertThat(run.await(line -> line.startsWith("listening on"), PATIENCE))
                    .isTrue();
            run.kill();
            assertThat(run.awaitExit(PATIENCE)).contains(KILLED);
        }
    }

    @Test
    @DisplayName("is killed on the very line that was named")
    void killedOnALine() throws Exception {
        try (CrashHarness.Run run = archive()) {
            run.killOn(line -> line.startsWith("listening on"));
            assertThat(run.awaitExit(PATIENCE)).contains(KILLED);
            assertThat(run.lines()).last().asString().startsWith("listening on");
        }
    }

    @Test
    @DisplayName("ends in good order when it is asked to")
    void asked() throws Exception {
        try (CrashHarness.Run run = archive()) {
            assertThat(run.await(line -> line.startsWith("listening on"), PATIENCE))
                    .isTrue();
            assertThat(run.askToEnd()).isTrue();
            assertThat(run.awaitExit(PATIENCE)).isPresent().get().isNotEqualTo(KILLED);
        }
    }

    @Test
    @DisplayName("a line that never comes is not waited for beyond the end of the program")
    void endedBefore() throws Exception {
        try (CrashHarness.Run run =
                CrashHarness.ofClass("vestibule.bridge.app.Main").start(List.of("--version"))) {
            assertThat(run.await(line -> line.equals("never"), PATIENCE)).isFalse();
            assertThat(run.awaitExit(PATIENCE)).contains(0);
            assertThat(Files.exists(folder.resolve("archive"))).isFalse();
        }
    }
}
