package vestibule.conformance.fault;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.conformance.fault.LinkFault.Direction;

@DisplayName("The rehearsal kit as a program")
class RehearsalTest {

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream err = new ByteArrayOutputStream();

    private int run(String... words) throws Exception {
        CountDownLatch stop = new CountDownLatch(1);
        stop.countDown();
        return Rehearsal.run(words, new PrintStream(out, true, UTF_8), new PrintStream(err, true, UTF_8), stop);
    }

    @Test
    @DisplayName("starts a link and an archive, and says where")
    void starts() throws Exception {
        assertThat(run("link", "127.0.0.1:104", "0", "cut-there=100", "first=2"))
                .isZero();
        assertThat(run("archive", "0", "healthy")).isZero();
        assertThat(out.toString(UTF_8))
                .containsPattern("listening on port \\d+, before 127.0.0.1:104")
                .containsPattern("listening on dicom://127.0.0.1:\\d+/ARCHIVE");
    }

    @Test
    @DisplayName("understands faults, and for how many connections they are meant")
    void faults() {
        FaultProxy.Plan plan = Rehearsal.plan(List.of("stall-back=7", "duplicate-there=2", "first=1"));
        assertThat(plan.on(0))
                .containsExactly(new LinkFault.Stall(Direction.BACK, 7), new LinkFault.Duplicate(Direction.THERE, 2));
        assertThat(plan.on(1)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "link 127.0.0.1 0",
                "link 127.0.0.1:104 0 break=1",
                "link 127.0.0.1:104 0 slice=0",
                "link 127.0.0.1:104 x",
                "link 127.0.0.1:104 0 duplicate-there=x",
                "archive 0 angry",
                "archive 0 status=12",
                "archive 0 status=B000,lost",
                "archive 0 late=5",
                "archive 0 late=0 report-to=dicom://127.0.0.1:104/VESTIBULE",
                "archive 0 late=5 report-to=127.0.0.1",
                "archive 0 silent second=1",
                "archive -1 healthy"
            })
    @DisplayName("says in a sentence what it did not understand")
    void wrongUse(String words) throws Exception {
        assertThat(run(words.split(" "))).isEqualTo(2);
        assertThat(err.toString(UTF_8)).isNotBlank();
        assertThat(out.toString(UTF_8)).isEmpty();
    }

    @Test
    @DisplayName("has an archive for every bad day")
    void behaviours() {
        for (String behaviour :
                List.of("forgets", "full", "refiles", "eats-answers", "silent", "refuses", "status=0110")) {
            assertThat(Behaviour.script(behaviour)).as(behaviour).isNotSameAs(Script.HEALTHY);
        }
    }
}
