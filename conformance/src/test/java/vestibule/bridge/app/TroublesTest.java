package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rulings;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("What keeps photographs from going on, as status tells it")
@Timeout(120)
class TroublesTest {

    @TempDir
    Path folder;

    @Test
    @DisplayName("an archive that is not there is named as long as anything is to be sent there")
    void archiveAway() throws Exception {
        Path card = Files.createDirectories(folder.resolve("card"));
        Photographs.card(card, 1, 22, 40);
        Settings settings = settings(card);
        PlainUnderstanding plain = new PlainUnderstanding();
        try (Keeping keeping = Keeping.open(folder.resolve("home"), settings, Clock.systemUTC())) {
            Destination nobody = new Destination("127.0.0.1", freePort(), "ARCHIVE", Optional.empty());
            Service.Parts parts = new Service.Parts(settings, nobody, Bench.TITLE, plain, plain);
            try (Service service = Service.start(keeping, parts, Clock.systemUTC())) {
                awaitStatus(keeping, settings, true, "nothing can be delivered");
                assertThat(status(keeping, settings))
                        .contains("1 photograph: 1 waiting")
                        .contains("nothing can be delivered: ")
                        .contains(String.valueOf(nobody.port()))
                        .doesNotContain("no service runs");
                keeping.outbox()
                        .rulings()
                        .discard(
                                keeping.outbox()
                                        .overview()
                                        .in(PhotoState.WAITING, PhotoState.SENT)
                                        .get(0)
                                        .photo(),
                                new Rulings.Said("discard", "", Optional.empty(), Instant.now()));
                awaitStatus(keeping, settings, false, "nothing can be delivered");
                assertThat(service.isLive()).isTrue();
            }
        }
    }

    @Test
    @DisplayName("an archive that has no room is named, until it has stored again")
    void noRoom() throws Exception {
        Path card = Files.createDirectories(folder.resolve("card"));
        Photographs.card(card, 1, 23, 40);
        Settings settings = settings(card);
        PlainUnderstanding plain = new PlainUnderstanding();
        AtomicBoolean full = new AtomicBoolean(true);
        Script script = new Script() {
            @Override
            public Reception store(HeldObject object, int number) {
                return full.get() ? new Reception(0xA700, "no room", false, true, Optional.empty()) : Reception.SUCCESS;
            }
        };
        try (ScriptedArchive archive = ScriptedArchive.start(script);
                Keeping keeping = Keeping.open(folder.resolve("home"), settings, Clock.systemUTC())) {
            Destination to = new Destination("127.0.0.1", archive.address().getPort(), "ARCHIVE", Optional.empty());
            Service.Parts parts = new Service.Parts(settings, to, Bench.TITLE, plain, plain);
            try (Service service = Service.start(keeping, parts, Clock.systemUTC())) {
                awaitStatus(keeping, settings, true, "the archive answers A700");
                full.set(false);
                awaitStatus(keeping, settings, true, "1 committed");
                awaitStatus(keeping, settings, false, "A700");
                assertThat(service.isLive()).isTrue();
            }
        }
    }

    private static void awaitStatus(Keeping keeping, Settings settings, boolean there, String words)
            throws IOException {
        long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (status(keeping, settings).contains(words) != there && System.nanoTime() - end < 0) {
            LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
        }
        assertThat(status(keeping, settings).contains(words))
                .as(status(keeping, settings))
                .isEqualTo(there);
    }

    private Settings settings(Path card) throws Exception {
        return Settings.read(Files.writeString(folder.resolve("vestibule.toml"), """
                [home]
                reserve = "1 MB"
                [intake]
                folders = ["%s"]
                settle = "10 ms"
                """.formatted(card)));
    }

    private static String status(Keeping keeping, Settings settings) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        StatusReport.of(keeping, settings, Clock.systemUTC().instant())
                .print(new PrintStream(out, true, StandardCharsets.UTF_8));
        return out.toString(StandardCharsets.UTF_8);
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }
}
