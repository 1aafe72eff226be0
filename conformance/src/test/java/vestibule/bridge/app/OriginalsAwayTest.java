package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("The folder of originals is away when photographs are to be sent")
class OriginalsAwayTest {

    @TempDir
    Path folder;

    private Path card;
    private Path originals;
    private ScriptedArchive archive;
    private Bench bench;

    @BeforeEach
    void decided() throws IOException {
        card = Photographs.card(folder.resolve("card"), 2, 3, 40);
        originals = folder.resolve("home/originals");
        archive = ScriptedArchive.start(Script.HEALTHY);
        bench = Bench.open(Bench.Site.of(folder.resolve("home"), card, archive.address()), new BenchClock());
        bench.takeIn();
        bench.decide();
    }

    @AfterEach
    void stop() throws IOException {
        bench.close();
        archive.close();
    }

    @Test
    @DisplayName("as a share may be: nothing is called damaged, and when it is back all goes on by itself")
    void away() throws IOException {
        Path elsewhere = Files.move(originals, folder.resolve("unmounted"));
        assertThatThrownBy(bench::deliver).isInstanceOf(IOException.class);
        assertThat(bench.counts()).isEqualTo(Map.of(PhotoState.WAITING, 2));
        assertThat(archive.arrivals()).isZero();
        Files.move(elsewhere, originals);
        assertThat(bench.untilIdle(6)).isTrue();
        Proof.allCommitted("after the share came back", bench, Mixture.on(card), archive);
    }

    @Test
    @DisplayName("one copy is gone while the folder is there: that one asks for a person, the other is filed")
    void oneIsGone() throws IOException {
        Overview overview = bench.keeping().outbox().overview();
        String gone = overview.in(PhotoState.WAITING, PhotoState.SENT).get(0).photo();
        Files.delete(originals.resolve(gone.substring(0, 2)).resolve(gone + ".jpg"));
        assertThat(bench.untilIdle(6)).isTrue();
        assertThat(bench.counts()).isEqualTo(Map.of(PhotoState.NEEDS_ATTENTION, 1, PhotoState.COMMITTED, 1));
        assertThat(overview.in(PhotoState.NEEDS_ATTENTION, PhotoState.REJECTED)
                        .get(0)
                        .reason())
                .contains("original-damaged");
    }
}
