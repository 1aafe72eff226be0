package vestibule.bridge.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("What bears on whose a photograph is, and when it no longer does")
class WitnessesTest {

    private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
    private static final String PHOTO = "a".repeat(64);
    private static final String OTHER = "c".repeat(64);

    @TempDir
    Path folder;

    private Outbox outbox;

    @BeforeEach
    void open() throws OutboxException {
        outbox = Outbox.open(Database.Address.file(folder.resolve("outbox.db")), Clock.fixed(NOON, ZoneOffset.UTC));
        outbox.nodes().alive("n", Duration.ofDays(1));
    }

    @AfterEach
    void close() {
        outbox.close();
    }

    private void take(String source, String name, String photo, Instant time, String place) throws OutboxException {
        outbox.arrivals().record(new Arrivals.Arrival(source, name, photo, 9, time, place, Optional.empty()));
    }

    private static Rounds.Round round(String source, String place) {
        return new Rounds.Round(source, place, "n");
    }

    private void decide(String source, String place) throws OutboxException {
        Rounds.Round round = round(source, place);
        outbox.rounds().begin(round);
        List<Rulings.Photograph> ours = outbox.rulings().toDecide(source, place, photograph -> photograph).stream()
                .filter(photograph -> !photograph.elsewhere().decided())
                .toList();
        for (Rulings.Known known : outbox.rulings().known(ours, Optional.empty())) {
            outbox.rulings().decided(known, "d" + known.said(), Optional.empty());
        }
        outbox.rounds().end(round);
    }

    private void say(String photo, String about) throws OutboxException {
        outbox.rulings().say(photo, List.of(new Rulings.Said(about, "x", Optional.empty(), NOON)));
    }

    private static Arrivals.Sighting file(String name) {
        return new Arrivals.Sighting(name, 5, NOON, Optional.empty(), Optional.of("it is not whole yet"));
    }

    private List<Rounds.Unread> unread() throws OutboxException {
        outbox.rounds().begin(round("A", "here"));
        return outbox.rounds().unread(round("A", "here"));
    }

    @Test
    @DisplayName("originals of another folder, which nobody may serve any more, do not hold a photograph back")
    void otherPlace() throws OutboxException {
        take("B", "C.JPG", OTHER, NOON, "there");
        take("A", "P.JPG", PHOTO, NOON, "here");
        take("B", "P.JPG", PHOTO, NOON, "there");
        take("A", "P.JPG", PHOTO, NOON, "here");
        decide("B", "there");
        decide("A", "here");
        say(PHOTO, "view");
        decide("A", "here");
        assertThat(outbox.consignments().claim("n", "here", 9)).hasSize(1);
    }

    @Test
    @DisplayName("what cards say of a photograph that no other source brought has nothing decided again")
    void noWitness() throws OutboxException {
        take("A", "C.JPG", OTHER, NOON, "here");
        take("A", "P.JPG", PHOTO, NOON, "here");
        decide("A", "here");
        say(OTHER, "patient");
        outbox.rounds().begin(round("A", "here"));
        outbox.rounds().bear(round("A", "here"), Map.of(PHOTO, Optional.of("{}")));
        assertThat(outbox.overview().pending(PHOTO).undecided()).isFalse();
    }

    @Test
    @DisplayName("a file that took long and is whole now is no unread file, even where it has another time since")
    void otherTime() throws OutboxException {
        take("A", "P.JPG", PHOTO, NOON, "here");
        outbox.arrivals().unread("A", "here", file("K.JPG"));
        outbox.arrivals().leftBehind("A", file("K.JPG"));
        assertThat(unread()).hasSize(1);
        take("A", "K.JPG", OTHER, NOON.minus(Duration.ofDays(3)), "here");
        assertThat(unread()).isEmpty();
    }

    @Test
    @DisplayName("a file that took long and is no photograph is no unread file")
    void noCard() throws OutboxException {
        take("A", "P.JPG", PHOTO, NOON, "here");
        outbox.arrivals().unread("A", "here", file("M.MOV"));
        assertThat(unread()).hasSize(1);
        outbox.arrivals().noCard("A", file("M.MOV"));
        assertThat(unread()).isEmpty();
    }

    @Test
    @DisplayName(
            "a file that cannot be read bears on what goes to another folder of originals, once that is the source's")
    void newOriginals() throws OutboxException {
        outbox.arrivals().sourceSeen("A", "there", "");
        outbox.arrivals().unread("A", "there", file("K.JPG"));
        take("A", "P.JPG", PHOTO, NOON, "here");
        assertThat(unread()).isEmpty();
        outbox.arrivals().unread("A", "here", file("K.JPG"));
        assertThat(unread()).hasSize(1);
    }

    @Test
    @DisplayName(
            "what the archive was asked about a photograph is still asked after a word that changes nothing of what is filed")
    void stillAsked() throws OutboxException {
        take("A", "P.JPG", PHOTO, NOON, "here");
        decide("A", "here");
        Consignments.Consignment claimed =
                outbox.consignments().claim("n", "here", 9).get(0);
        outbox.consignments()
                .made(claimed, List.of(new Consignments.Made("2.25.1", "1.2", "d", 9, Optional.empty(), List.of())));
        outbox.consignments().sending(PHOTO, claimed.revision(), "2.25.1", "n");
        outbox.consignments().stored(PHOTO, "2.25.1", 0, "");
        outbox.consignments().attention(PHOTO, "patient-changed", "The archive changed the patient.");
        say(PHOTO, "view");
        decide("A", "here");
        outbox.commitments().readBack("2.25.1");
        Overview.Photograph photograph = outbox.overview().named(PHOTO).get(0);
        assertThat(photograph.state()).isEqualTo(PhotoState.NEEDS_ATTENTION);
        assertThat(photograph.reason()).contains("patient-changed");
    }

    @Test
    @DisplayName(
            "a source that has to be called otherwise than its folder, since another node has one there, still lies in that folder")
    void folderOfANode() throws Exception {
        assertThat(outbox.arrivals().sourceSeen("B", "here", "first-node")).isEqualTo("B");
        String called = outbox.arrivals().sourceSeen("B", "here", "second-node");
        assertThat(called).isNotEqualTo("B");
        outbox.arrivals()
                .record(new Arrivals.Arrival(
                        called,
                        "P.JPG",
                        "d".repeat(64),
                        9,
                        Instant.parse("2026-11-25T12:00:00Z"),
                        "here",
                        Optional.empty()));
        assertThat(outbox.rulings().toDecide(called, "here", Rulings.Photograph::folder))
                .containsExactly("B");
    }
}
