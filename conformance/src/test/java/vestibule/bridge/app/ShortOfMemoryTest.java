package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("A service whose memory is short for a moment")
@Timeout(120)
class ShortOfMemoryTest {

    private static final int PHOTOGRAPHS = 3;

    @TempDir
    Path folder;

    private final PlainUnderstanding plain = new PlainUnderstanding();
    private final AtomicInteger decided = new AtomicInteger();
    private final AtomicInteger made = new AtomicInteger();

    private void decide(Deciding.Photographs photographs) throws IOException {
        if (decided.incrementAndGet() == 1) {
            throw new OutOfMemoryError("in deciding, by this test");
        }
        plain.decide(photographs);
    }

    private List<Making.Made> make(Path original, String decision, Path into) throws IOException {
        if (made.incrementAndGet() == 1) {
            throw new OutOfMemoryError("in making, by this test");
        }
        return plain.make(original, decision, into);
    }

    @Test
    @DisplayName("goes on where it was: every photograph is committed, and nobody is asked for anything")
    void goesOn() throws Exception {
        Path card = Files.createDirectories(folder.resolve("card"));
        Photographs.card(card, PHOTOGRAPHS, 22, 40);
        Settings settings = Settings.read(Files.writeString(folder.resolve("vestibule.toml"), """
                [home]
                reserve = "1 MB"
                [intake]
                folders = ["%s"]
                settle = "10 ms"
                """.formatted(card)));
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Keeping keeping = Keeping.open(folder.resolve("home"), settings, Clock.systemUTC())) {
            Destination to = new Destination("127.0.0.1", archive.address().getPort(), "ARCHIVE", Optional.empty());
            try (Service service = Service.start(
                    keeping,
                    new Service.Parts(settings, to, Bench.TITLE, this::decide, this::make),
                    Clock.systemUTC())) {
                long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
                while (committed(keeping) < PHOTOGRAPHS && System.nanoTime() - end < 0) {
                    LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
                }
                assertThat(committed(keeping)).isEqualTo(PHOTOGRAPHS);
                assertThat(service.isLive()).isTrue();
            }
            assertThat(decided).as("decided again after the first failed").hasValueGreaterThan(1);
            assertThat(made).as("made again after the first failed").hasValueGreaterThan(PHOTOGRAPHS);
        }
    }

    private static int committed(Keeping keeping) throws IOException {
        return keeping.outbox().overview().counts().getOrDefault(PhotoState.COMMITTED, 0);
    }
}
