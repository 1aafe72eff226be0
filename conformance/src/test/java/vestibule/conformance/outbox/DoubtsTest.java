package vestibule.conformance.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.bridge.app.BenchClock;
import vestibule.bridge.outbox.Arrivals.Arrival;
import vestibule.bridge.outbox.Commitments.Reference;
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.Consignments.Made;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.OutboxException;
import vestibule.bridge.outbox.Rulings.Known;
import vestibule.bridge.outbox.Rulings.Said;
import vestibule.conformance.outbox.BothDatabasesTest.Kind;

@DisplayName(
        "What a person has to know of something filed is not forgotten for something else, in SQLite and in PostgreSQL")
@Timeout(120)
class DoubtsTest {

    private static final Instant MORNING = Instant.parse("2026-03-12T08:00:00Z");
    private static final String PHOTO = "a".repeat(64);
    private static final Made OBJECT =
            new Made("2.25.1", "1.2.840.10008.5.1.4.1.1.77.1.4", "d", 9, Optional.empty(), List.of());

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();

    /** An outbox with one photograph that the archive has. */
    private Outbox filed(Kind kind) throws Exception {
        Outbox outbox = Outbox.open(kind.at(folder), clock);
        outbox.nodes().alive("one", Duration.ofDays(2));
        outbox.arrivals().record(new Arrival("/card", "DCIM/a.JPG", PHOTO, 1000, MORNING, "here", Optional.empty()));
        outbox.rulings().decided(known(outbox), "{\"decision\":1}", Optional.empty());
        Consignment claimed = outbox.consignments().claim("one", "here", 1).get(0);
        outbox.consignments().made(claimed, List.of(OBJECT));
        outbox.consignments().sending(PHOTO, claimed.revision(), OBJECT.sopInstance(), "one");
        outbox.consignments().stored(PHOTO, OBJECT.sopInstance(), 0, "");
        return outbox;
    }

    private static Known known(Outbox outbox) throws OutboxException {
        return outbox.rulings()
                .known(outbox.rulings().toDecide("/card", "here", photograph -> photograph), Optional.empty())
                .get(0);
    }

    private static void asks(Outbox outbox) throws OutboxException {
        outbox.consignments().attention(PHOTO, "identity-changed", "The archive changed who it is.");
    }

    private static void doubts(Outbox outbox) throws OutboxException {
        outbox.rulings().say(PHOTO, List.of(new Said("patient", "PG-0002", Optional.empty(), MORNING)));
        outbox.rulings().doubtfulOfFiled(known(outbox), "filed-under-another-patient", "Whose is it?");
    }

    private static String open(Outbox outbox) throws OutboxException {
        return outbox.overview().named(PHOTO).get(0).reason().orElse("nothing");
    }

    private static boolean isToDecide(Outbox outbox) throws OutboxException {
        return outbox.rulings().sources("here").equals(List.of("/card"));
    }

    private static void answers(Outbox outbox) throws OutboxException {
        assertThat(outbox.rulings().acknowledge(PHOTO, new Said("accept", "yes", Optional.empty(), MORNING)))
                .isTrue();
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("the question comes first; once it is answered the photograph is decided again, and the doubt stands")
    void doubtComesLater(Kind kind) throws Exception {
        try (Outbox outbox = filed(kind)) {
            asks(outbox);
            doubts(outbox);
            assertThat(open(outbox)).isEqualTo("identity-changed");
            assertThat(isToDecide(outbox)).isFalse();
            answers(outbox);
            assertThat(isToDecide(outbox)).isTrue();
            doubts(outbox);
            assertThat(open(outbox)).isEqualTo("filed-under-another-patient");
            assertThat(isToDecide(outbox)).isFalse();
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a question that comes while a doubt stands does not make it forgotten")
    void questionComesLater(Kind kind) throws Exception {
        try (Outbox outbox = filed(kind)) {
            doubts(outbox);
            asks(outbox);
            assertThat(open(outbox)).isEqualTo("identity-changed");
            outbox.rulings().retry(PHOTO, new Said("retry", "yes", Optional.empty(), MORNING));
            assertThat(isToDecide(outbox)).isTrue();
        }
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("what the archive changed stays to be read when commitment comes late, and why it was late does not")
    void warningStays(Kind kind) throws Exception {
        try (Outbox outbox = filed(kind)) {
            outbox.consignments().note(PHOTO, "the archive stored it with warning B007");
            Instant deadline = clock.instant().plus(Duration.ofMinutes(5));
            List<Reference> asked = outbox.commitments().open("2.25.5", "ARCHIVE", 9, deadline);
            outbox.commitments().notTaken("2.25.5", "processing failure");
            assertThat(note(outbox))
                    .isEqualTo("the archive stored it with warning B007; not committed yet: processing failure");
            clock.pass(Duration.ofMinutes(1));
            assertThat(outbox.commitments().open("2.25.6", "ARCHIVE", 9, deadline))
                    .isEqualTo(asked);
            outbox.commitments().report("2.25.6", "ARCHIVE", asked, List.of());
            assertThat(note(outbox)).isEqualTo("the archive stored it with warning B007");
        }
    }

    private static String note(Outbox outbox) throws OutboxException {
        assertThat(outbox.overview().noted()).hasSize(1);
        return outbox.overview().noted().get(0).note().orElseThrow();
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    @DisplayName("a question without a doubt behind it is answered, and nothing is decided again")
    void noDoubt(Kind kind) throws Exception {
        try (Outbox outbox = filed(kind)) {
            asks(outbox);
            answers(outbox);
            assertThat(open(outbox)).isEqualTo("nothing");
            assertThat(isToDecide(outbox)).isFalse();
            doubts(outbox);
            asks(outbox);
            outbox.rulings().say(PHOTO, List.of(new Said("patient", "PG-0001", Optional.empty(), MORNING)));
            outbox.rulings().stands(known(outbox));
            answers(outbox);
            assertThat(isToDecide(outbox)).as("the doubt had gone before").isFalse();
        }
    }
}
