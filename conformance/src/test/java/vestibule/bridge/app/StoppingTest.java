package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.CrashHarness.Run;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("A service that is asked to end (SIGTERM)")
@Timeout(180)
class StoppingTest {

    private static final Duration PATIENCE = Duration.ofMinutes(1);

    /** Ten seconds, and what a busy machine may need to start and end a program. */
    private static final Duration PROMISED = Duration.ofSeconds(14);

    @TempDir
    Path folder;

    @Test
    @DisplayName(
            "while the archive leaves it without an answer: parked within ten seconds, and asked for at the next start")
    void parked() throws Exception {
        CountDownLatch stalled = new CountDownLatch(1);
        CountDownLatch over = new CountDownLatch(1);
        Deadly script = new Deadly();
        try (ScriptedArchive archive = ScriptedArchive.start(script)) {
            RealRun real = RealRun.in(folder, archive.url());
            real.photographs(4);
            script.onStore(
                    () -> {
                        stalled.countDown();
                        over.await();
                    },
                    1);
            try (Run run = real.serve()) {
                stalled.await();
                assertThat(run.askToEnd()).isTrue();
                assertThat(run.awaitExit(PROMISED))
                        .as("%s", run.lines())
                        .isPresent()
                        .get()
                        .isNotEqualTo(RealRun.KILLED);
                assertThat(run.lines()).anyMatch(line -> line.contains("is asked for it at the next start"));
            }
            over.countDown();
            script.disarm();
            real.finish();
            real.judge("parked", archive);
        }
    }

    @Test
    @DisplayName("while photographs go through: the one being sent is finished, and nothing is left half done")
    void finished() throws Exception {
        Deadly script = new Deadly();
        try (ScriptedArchive archive = ScriptedArchive.start(script)) {
            RealRun real = RealRun.in(folder, archive.url());
            real.photographs(6);
            CountDownLatch asked = new CountDownLatch(1);
            try (Run run = real.serve()) {
                script.onStore(
                        () -> {
                            assertThat(run.askToEnd()).isTrue();
                            asked.countDown();
                        },
                        2);
                asked.await();
                assertThat(run.awaitExit(PATIENCE))
                        .as("%s", run.lines())
                        .isPresent()
                        .get()
                        .isNotEqualTo(RealRun.KILLED);
            }
            script.disarm();
            real.finish();
            real.judge("finished", archive);
            assertThat(archive.arrivals()).as("nothing was sent twice").isEqualTo(Mixture.objects(0, 6));
        }
    }
}
