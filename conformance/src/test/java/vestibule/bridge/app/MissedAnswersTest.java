package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rulings;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("An answer was missed, and the archive takes no queries: a person decides, and nothing doubles")
class MissedAnswersTest {

    private static final int NOT_SUPPORTED = 0x0122;

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();
    private Path card;
    private ScriptedArchive archive;
    private Bench bench;

    /** The answer to the first object is swallowed. */
    private record Swallows(boolean keepsFirst, int query) implements Script {
        @Override
        public Reception store(HeldObject object, int number) {
            return number == 0 ? new Reception(0, "", keepsFirst, false, Optional.empty()) : Reception.SUCCESS;
        }
    }

    @BeforeEach
    void start() throws IOException {
        card = Photographs.card(folder.resolve("card"), 1, 3, 40);
    }

    private void inDoubt(boolean kept) throws IOException {
        archive = ScriptedArchive.start(new Swallows(kept, NOT_SUPPORTED));
        bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), clock);
        assertThat(bench.untilIdle(4)).isTrue();
        assertThat(photo().reason()).contains("outcome-unknown");
        assertThat(photo().message().orElseThrow()).contains("--accept").contains("--retry");
        assertThat(archive.arrivals()).isEqualTo(1);
    }

    private Overview.Photograph photo() throws IOException {
        return bench.keeping()
                .outbox()
                .overview()
                .in(PhotoState.NEEDS_ATTENTION, PhotoState.COMMITTED)
                .get(0);
    }

    private Rulings.Said word(String about) {
        return new Rulings.Said(about, "yes", Optional.of("an assistant"), clock.instant());
    }

    private void committed(int arrivals) throws IOException {
        assertThat(bench.untilIdle(6)).isTrue();
        Proof.allCommitted("after the word", bench, Mixture.on(card), archive);
        assertThat(archive.arrivals()).isEqualTo(arrivals);
    }

    /** The answer to the first object is swallowed, which would have been that it is filed under somebody else. */
    private record Coerces() implements Script {
        @Override
        public Reception store(HeldObject object, int number) {
            return new Reception(0xB000, "coerced", true, false, Optional.of("SOMEBODY-ELSE"));
        }
    }

    @Test
    @DisplayName(
            "what the archive is found to have is looked at there: under another patient it stops, as after an answer")
    void foundUnderAnotherPatient() throws IOException {
        archive = ScriptedArchive.start(new Coerces());
        bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), clock);
        assertThat(bench.untilIdle(6)).isTrue();
        assertThat(photo().reason()).contains("patient-changed");
        assertThat(photo().message().orElseThrow()).contains("PatientID");
        assertThat(archive.arrivals()).isEqualTo(1);
        assertThat(bench.keeping().outbox().rulings().acknowledge(photo().photo(), word("accept")))
                .isTrue();
        assertThat(bench.untilIdle(6)).isTrue();
        assertThat(bench.counts()).isEqualTo(java.util.Map.of(PhotoState.COMMITTED, 1));
    }

    @AfterEach
    void stop() throws IOException {
        bench.close();
        archive.close();
    }

    @Test
    @DisplayName("retry: sent again under the same identifier, so that the archive has it once")
    void sentAgain() throws IOException {
        inDoubt(true);
        bench.keeping().outbox().rulings().retry(photo().photo(), word("retry"));
        committed(2);
    }

    @Test
    @DisplayName("retry, and by now the archive can be asked: it has it, so nothing is sent again")
    void askedAgain() throws IOException {
        inDoubt(true);
        archive.script(new Swallows(true, 0));
        bench.keeping().outbox().rulings().retry(photo().photo(), word("retry"));
        committed(1);
    }

    @Test
    @DisplayName("accept: believed stored; the archive takes responsibility, and nothing is sent again")
    void believed() throws IOException {
        inDoubt(true);
        assertThat(bench.keeping().outbox().rulings().acknowledge(photo().photo(), word("accept")))
                .isTrue();
        assertThat(bench.counts()).isEqualTo(java.util.Map.of(PhotoState.WAITING, 1));
        committed(1);
    }

    @Test
    @DisplayName("accept, and it was wrong: the archive says that it has no such object, and it is sent again")
    void believedWrongly() throws IOException {
        inDoubt(false);
        bench.keeping().outbox().rulings().acknowledge(photo().photo(), word("accept"));
        committed(2);
    }
}
