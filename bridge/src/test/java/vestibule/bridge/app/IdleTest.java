package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;
import vestibule.bridge.settings.Settings;

@DisplayName("Waiting until nothing is on its way")
class IdleTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-12T09:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path folder;

    private final Logger log = (Logger) LoggerFactory.getLogger(Idle.class);
    private final ListAppender<ILoggingEvent> said = new ListAppender<>();

    @BeforeEach
    void listen() {
        said.start();
        log.addAppender(said);
        log.setLevel(Level.INFO);
    }

    @AfterEach
    void leave() {
        log.detachAppender(said);
        log.setLevel(null);
    }

    private void await(boolean settled, CountDownLatch stop) throws Exception {
        try (Keeping keeping = Keeping.open(folder, Settings.NONE, CLOCK)) {
            new Idle(keeping.outbox().overview(), "here", CLOCK, () -> settled).await(stop);
        }
    }

    @Test
    @DisplayName("ends by itself, and says that it is idle")
    void idle() throws Exception {
        await(true, new CountDownLatch(1));
        assertThat(said.list)
                .extracting(ILoggingEvent::getFormattedMessage)
                .containsExactly("idle at 2026-03-12T09:00:00Z");
    }

    @Test
    @DisplayName("ends when it is stopped, and does not say that it is idle")
    void stopped() throws Exception {
        await(false, new CountDownLatch(0));
        assertThat(said.list)
                .extracting(ILoggingEvent::getFormattedMessage)
                .containsExactly("stopped before it was idle, at 2026-03-12T09:00:00Z");
    }
}
