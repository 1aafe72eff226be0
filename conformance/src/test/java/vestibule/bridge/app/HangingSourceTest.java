package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.settings.Intake;
import vestibule.bridge.settings.Running;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.FaultDisk;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("A share that stops answering")
@Timeout(120)
class HangingSourceTest {

    private static final int EACH = 3;
    private static final Duration SHORT = Duration.ofMillis(300);
    private static final Duration LONG = Duration.ofSeconds(60);

    @TempDir
    Path folder;

    private interface Condition {
        boolean holds() throws Exception;
    }

    @ParameterizedTest(name = "after {0} bytes")
    @ValueSource(longs = {0, 700})
    @DisplayName(
            "holds no other source up, is said, and goes on by itself when it answers: in being listed, and in the middle of a photograph")
    void hangs(long bytes) throws Exception {
        Path card = Files.createDirectories(folder.resolve("card"));
        Photographs.card(card, EACH, 31, 40);
        FaultDisk share = FaultDisk.over(folder.resolve("share"));
        Photographs.card(share.folder(), EACH, 41, 40);
        Settings settings = watching(List.of(share.root(), card));
        share.hangAfterReading(bytes);
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Keeping keeping = Keeping.open(folder.resolve("home"), settings, Clock.systemUTC())) {
            PlainUnderstanding plain = new PlainUnderstanding();
            Destination to = new Destination("127.0.0.1", archive.address().getPort(), "ARCHIVE", Optional.empty());
            try (Service service = Service.start(
                    keeping, new Service.Parts(settings, to, Bench.TITLE, plain, plain), Clock.systemUTC())) {
                await(() -> committed(keeping) == EACH && service.hanging() == 1);
                assertThat(trouble(keeping, share.root())).contains("it has not answered since");
                assertThat(trouble(keeping, card)).isEmpty();
                assertThat(service.isLive()).isTrue();

                share.answer();
                await(() -> committed(keeping) == 2 * EACH && service.hanging() == 0);
                await(() -> trouble(keeping, share.root()).isEmpty());
            }
        }
    }

    @Test
    @DisplayName("keeps nobody waiting who asks whether it may be cleared: it is said that it does not answer")
    void listed() throws Exception {
        FaultDisk share = FaultDisk.over(folder.resolve("share"));
        Photographs.card(share.folder(), EACH, 41, 40);
        share.hangAfterReading(0);
        assertThat(CardVerdict.listing(share.root(), LeaveAlone.USUAL, SHORT).trouble())
                .contains("it does not answer");
        share.answer();
        assertThat(CardVerdict.listing(share.root(), LeaveAlone.USUAL, LONG).files())
                .hasSize(EACH);
    }

    @ParameterizedTest(name = "after {0} bytes")
    @ValueSource(longs = {0, 700})
    @DisplayName("is given up by the command intake, and taken in whole by the next")
    void takenIn(long bytes) throws Exception {
        FaultDisk share = FaultDisk.over(folder.resolve("share"));
        Photographs.card(share.folder(), EACH, 41, 40);
        Settings settings = watching(List.of(share.root()));
        Intake intake = settings.running().intake();
        share.hangAfterReading(bytes);
        try (Keeping keeping = Keeping.open(folder.resolve("home"), settings, Clock.systemUTC())) {
            Originals originals = keeping.originalsForIntake();
            SourceReader hanging = keeping.reader(share.root(), originals, intake, Clock.systemUTC());
            await(() -> IntakeCommand.look(hanging, SHORT)
                    .trouble()
                    .filter(why -> why.startsWith("it does not answer"))
                    .isPresent());
            share.answer();
            SourceReader next = keeping.reader(share.root(), originals, intake, Clock.systemUTC());
            await(() -> {
                SourceReader.Look look = IntakeCommand.look(next, LONG);
                return look.trouble().isEmpty() && look.awaited() == 0;
            });
            assertThat(keeping.outbox().overview().fate(share.root().toString()).photos())
                    .isEqualTo(EACH);
        }
    }

    /** Settings name folders of this machine; the share is one that only this test can see. */
    private Settings watching(List<Path> folders) throws Exception {
        Settings read = Settings.read(Files.writeString(folder.resolve("vestibule.toml"), """
                [home]
                reserve = "1 MB"
                [intake]
                settle = "10 ms"
                rescan = "100 ms"
                hangs = "500 ms"
                """));
        Intake intake = read.running().intake();
        return new Settings(
                read.practice(),
                read.callingAe(),
                read.patients(),
                read.cameras(),
                read.views(),
                read.sets(),
                read.study(),
                new Running(
                        read.running().home(),
                        new Intake(folders, intake.settle(), intake.rescan(), intake.hangs(), intake.leaveAlone()),
                        read.running().archive(),
                        read.running().service()),
                read.tls(),
                read.listener());
    }

    private static void await(Condition condition) throws Exception {
        long end = System.nanoTime() + Duration.ofSeconds(50).toNanos();
        while (!condition.holds() && System.nanoTime() - end < 0) {
            LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
        }
        assertThat(condition.holds()).isTrue();
    }

    private static int committed(Keeping keeping) throws IOException {
        return keeping.outbox().overview().counts().getOrDefault(PhotoState.COMMITTED, 0);
    }

    private static String trouble(Keeping keeping, Path source) throws IOException {
        return keeping.outbox().overview().sources().stream()
                .filter(one -> one.name().equals(source.toString()))
                .map(Overview.Source::trouble)
                .findFirst()
                .flatMap(found -> found)
                .orElse("");
    }
}
