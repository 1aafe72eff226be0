package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.dicom.data.PersonName;

@DisplayName("Sittings by cards, pauses, cameras and the chair's appointments")
class SittingsTest {

    private static final LocalDateTime NINE = LocalDateTime.parse("2026-03-12T09:00");
    private static final Duration PAUSE = Duration.ofMinutes(20);

    private static Frame frame(String name, String camera, int minute) {
        return new Frame(name, name, camera, Optional.of(NINE.plusMinutes(minute)), Optional.empty());
    }

    private static Frame card(String name, String camera, int minute, String id) {
        Evidence evidence = new Evidence.PatientCard(Identity.ofId(id), Instant.EPOCH, name);
        return new Frame(
                name, name, camera, Optional.of(NINE.plusMinutes(minute)), Optional.of(new Frame.Start(evidence)));
    }

    private static Optional<String> who(Map<String, Sittings.Place> places, String name) {
        return Optional.ofNullable(places.get(name))
                .flatMap(Sittings.Place::card)
                .flatMap(evidence -> evidence.who().id());
    }

    @Test
    @DisplayName("numbers in names count as numbers, however long, and so in every order")
    void longNumbers() {
        List<String> ordered =
                List.of("IMG_9", "IMG_010", "IMG_10", "IMG_9999999999999999999", "IMG_10000000000000000000", "IMG_A");
        for (String one : ordered) {
            for (String other : ordered) {
                assertThat(Integer.signum(Sittings.compareNames(one, other)))
                        .as("%s and %s", one, other)
                        .isEqualTo(Integer.signum(ordered.indexOf(one) - ordered.indexOf(other)));
            }
        }
    }

    @Test
    @DisplayName("a card counts for its own camera alone, unless cameras are merged")
    void merge() {
        List<Frame> frames = List.of(
                card("A1", "one", 0, "PG-0001"),
                frame("A2", "one", 1),
                frame("B1", "two", 2),
                card("A3", "one", 5, "PG-0005"),
                frame("B2", "two", 6));
        Map<String, Sittings.Place> apart = new Sittings(PAUSE, false, Diary.EMPTY).places(frames);
        assertThat(who(apart, "A2")).contains("PG-0001");
        assertThat(who(apart, "B1")).isEmpty();
        assertThat(apart.get("B1").reason()).contains(Reason.NO_PATIENT);
        Map<String, Sittings.Place> merged = new Sittings(PAUSE, true, Diary.EMPTY).places(frames);
        assertThat(who(merged, "A2")).contains("PG-0001");
        assertThat(who(merged, "B1")).contains("PG-0001");
        assertThat(who(merged, "B2")).contains("PG-0005");
    }

    @Test
    @DisplayName("merged, a frame without a time keeps every camera to its own cards")
    void mergeWithoutTimes() {
        List<Frame> frames = List.of(
                card("A1", "one", 0, "PG-0001"), new Frame("B1", "B1", "two", Optional.empty(), Optional.empty()));
        assertThat(who(new Sittings(PAUSE, true, Diary.EMPTY).places(frames), "B1"))
                .isEmpty();
    }

    @Test
    @DisplayName("of one chair: after somebody else's appointment began, an old card no longer counts; a new card does")
    void oneChair() {
        Diary diary = new Diary(List.of(appointment("PG-0001", 0), appointment("PG-0005", 15)));
        List<Frame> frames = List.of(
                card("A1", "one", 0, "PG-0001"), frame("A2", "one", 5), frame("A3", "one", 16), frame("A4", "one", 18));
        Map<String, Sittings.Place> places = new Sittings(PAUSE, false, diary).places(frames);
        assertThat(who(places, "A2")).contains("PG-0001");
        assertThat(places.get("A3").reason()).contains(Reason.ANOTHER_APPOINTMENT);
        assertThat(who(places, "A4")).isEmpty();
        List<Frame> withCard = List.of(
                card("A1", "one", 0, "PG-0001"),
                frame("A2", "one", 5),
                card("A3", "one", 16, "PG-0005"),
                frame("A4", "one", 18));
        assertThat(who(new Sittings(PAUSE, false, diary).places(withCard), "A4"))
                .contains("PG-0005");
        assertThat(who(new Sittings(PAUSE, false, Diary.EMPTY).places(frames), "A3"))
                .as("without the list nothing tells them apart")
                .contains("PG-0001");
    }

    private static Known appointment(String id, int minute) {
        Patient patient = new Patient(
                id,
                Optional.empty(),
                PersonName.parse("Exempel^" + id.substring(3)).orElseThrow(),
                Optional.empty(),
                Optional.empty());
        return new Known(
                patient,
                Evidence.Source.DAY_LIST,
                Optional.of(new Known.Appointment(
                        Optional.of(NINE.plusMinutes(minute)),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty())));
    }
}
