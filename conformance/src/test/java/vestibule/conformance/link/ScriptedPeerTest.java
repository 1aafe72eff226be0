package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;
import vestibule.dicom.service.VerificationUser;

@DisplayName("A peer that plays scripts of raw bytes (PS3.8 9.2, 9.3)")
@Timeout(120)
class ScriptedPeerTest {

    private static final Deadlines AMPLE = Deadlines.all(Duration.ofSeconds(20));
    private static final Deadlines SHORT = Deadlines.all(Duration.ofMillis(300));
    private static final int LARGE = 16 << 20;
    private static final int LEAST_OUTCOMES = 40;
    private static final int LEAST_STALLS = 12;

    private static final AssociationRequest REQUEST = AssociationRequest.of(
            new AeTitle("US"),
            List.of(
                    VerificationUser.proposal(),
                    ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.JPEG_BASELINE8_BIT)));

    /** The first socket that a Java closes makes it open a pair of its own, which stays. */
    @BeforeAll
    static void firstSockets() throws IOException, InterruptedException {
        Script first = Script.read("outcomes.txt").get(0);
        try (RawPeer peer = new RawPeer(first)) {
            use("open", new ApplicationEntity(new AeTitle("ARCHIVE"), "127.0.0.1", peer.port()), AMPLE);
            assertThat(peer.end()).isNull();
        }
    }

    @TestFactory
    @DisplayName("each association outcome is told for what it is")
    Stream<DynamicTest> outcomes() throws IOException {
        return Script.read("outcomes.txt").stream()
                .map(script -> dynamicTest(script.name(), () -> assertOutcome(script, AMPLE)));
    }

    @TestFactory
    @DisplayName("each stall ends at its deadline")
    Stream<DynamicTest> stalls() throws IOException {
        return Script.read("stalls.txt").stream()
                .map(script -> dynamicTest(script.name(), () -> assertOutcome(script, SHORT)));
    }

    @Test
    @DisplayName("there are at least 40 outcomes and 12 stalls")
    void enough() throws IOException {
        assertThat(Script.read("outcomes.txt").stream().map(Script::name).distinct())
                .hasSizeGreaterThanOrEqualTo(LEAST_OUTCOMES);
        assertThat(Script.read("stalls.txt").stream().map(Script::name).distinct())
                .hasSizeGreaterThanOrEqualTo(LEAST_STALLS);
    }

    private static void assertOutcome(Script script, Deadlines deadlines) throws IOException, InterruptedException {
        Leftovers before = new Leftovers();
        RawPeer peer = new RawPeer(script);
        String found;
        try (peer) {
            ApplicationEntity entity = new ApplicationEntity(new AeTitle("ARCHIVE"), "127.0.0.1", peer.port());
            found = use(script.use(), entity, deadlines);
        }
        String surprise = peer.end();
        assertThat(found).startsWith(script.outcome() + ":").contains(script.words());
        assertThat(surprise).as("what the peer did not expect").isNull();
        before.assertNothingIsLeft();
    }

    /** What came of it: a kind, a colon, a sentence. */
    private static String use(String how, ApplicationEntity peer, Deadlines deadlines) {
        ApplicationEntity called = how.equals("secure") ? peer.withTls(Tls.usual()) : peer;
        try (Association association = Association.open(REQUEST, called, deadlines)) {
            return switch (how) {
                case "open", "secure" -> "Fine: it is open";
                case "echo" -> told(new VerificationUser(association).echo());
                case "store" -> told(store(association));
                case "release" -> {
                    association.release();
                    yield "Fine: released";
                }
                default -> throw new IOException("nothing is used as " + how);
            };
        } catch (IOException e) {
            return told(e);
        }
    }

    private static StoreOutcome store(Association association) {
        return new StorageUser(association)
                .store(
                        Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE,
                        new Uid("2.25.4711"),
                        Uids.JPEG_BASELINE8_BIT,
                        Bulk.of(new byte[LARGE]));
    }

    private static String told(EchoOutcome outcome) {
        if (outcome instanceof EchoOutcome.Unknown unknown) {
            return told(unknown.cause());
        }
        if (outcome instanceof EchoOutcome.NotSent notSent) {
            return "NotSent: " + notSent.reason();
        }
        return outcome instanceof EchoOutcome.Refused refused
                ? "Refused: %s %s".formatted(refused.status(), refused.comment())
                : "Fine: it answers";
    }

    private static String told(StoreOutcome outcome) {
        if (outcome instanceof StoreOutcome.Unknown unknown) {
            return told(unknown.cause());
        }
        return "%s: %s".formatted(outcome.getClass().getSimpleName(), outcome);
    }

    private static String told(@Nullable Throwable e) {
        assertThatCode(() -> assertThat(e).hasMessageStartingWith("ARCHIVE at 127.0.0.1:"))
                .as("a sentence names the peer first")
                .doesNotThrowAnyException();
        return e == null ? "" : "%s: %s".formatted(e.getClass().getSimpleName(), e.getMessage());
    }
}
