package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.intake.NameOrder;
import vestibule.dicom.data.PersonName;

@DisplayName("Sittings by cards, pauses, cameras and the chair's appointments")
class SittingsTest {

    private static final LocalDateTime NINE = LocalDateTime.parse("2026-03-12T09:00");
    private static final Duration PAUSE = Duration.ofMinutes(20);

    private static Frame frame(String name, String camera, int minute) {
        return new Frame(name, name, camera, 0, Optional.of(NINE.plusMinutes(minute)), Optional.empty());
    }

    private static Frame card(String name, String camera, int minute, String id) {
        Evidence evidence = new Evidence.PatientCard(Identity.ofId(id), Instant.EPOCH, name);
        return new Frame(
                name, name, camera, 0, Optional.of(NINE.plusMinutes(minute)), Optional.of(new Frame.Start(evidence)));
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
                assertThat(Integer.signum(NameOrder.compare(one, other)))
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

    private static Frame on(int medium, Frame frame) {
        return new Frame(medium + " " + frame.key(), frame.name(), frame.camera(), medium, frame.taken(), frame.mark());
    }

    @Test
    @DisplayName(
            "a card counts for what is on its own memory card; one that is put in after it asks, until a card is on it")
    void anotherMemoryCard() {
        List<Frame> frames = List.of(
                on(0, card("A1", "one", 0, "PG-0001")),
                on(0, frame("A2", "one", 1)),
                on(1, frame("A3", "one", 2)),
                on(1, card("A4", "one", 3, "PG-0005")),
                on(1, frame("A5", "one", 4)));
        Map<String, Sittings.Place> places = new Sittings(PAUSE, false, Diary.EMPTY).places(frames);
        assertThat(who(places, "0 A2")).contains("PG-0001");
        assertThat(places.get("1 A3").reason()).contains(Reason.ANOTHER_MEMORY_CARD);
        assertThat(who(places, "1 A3")).isEmpty();
        assertThat(places.get("1 A3").run())
                .as("no sitting goes on")
                .isNotEqualTo(places.get("0 A2").run());
        assertThat(who(places, "1 A5")).contains("PG-0005");
    }

    @Test
    @DisplayName(
            "a camera that counts anew on another memory card puts nothing in doubt; going on with the first one does")
    void countedAnew() {
        List<Frame> frames = List.of(
                on(0, card("A1", "one", 0, "PG-0001")),
                on(0, frame("A2", "one", 1)),
                on(1, card("A1", "one", 2, "PG-0005")),
                on(1, frame("A2", "one", 3)));
        Map<String, Sittings.Place> places = new Sittings(PAUSE, false, Diary.EMPTY).places(frames);
        assertThat(who(places, "0 A2")).contains("PG-0001");
        assertThat(who(places, "1 A2")).contains("PG-0005");
        Map<String, Sittings.Place> back =
                new Sittings(PAUSE, false, Diary.EMPTY).places(and(frames, on(0, frame("A3", "one", 4))));
        assertThat(back.get("0 A3").reason()).contains(Reason.ORDER_UNCLEAR);
        assertThat(who(back, "0 A3")).isEmpty();
    }

    @Test
    @DisplayName("where cameras share their cards, each has a memory card of its own")
    void mergedMemoryCards() {
        List<Frame> frames = List.of(
                on(0, card("A1", "one", 0, "PG-0001")), on(1, frame("B1", "two", 1)), on(2, frame("A2", "one", 2)));
        Map<String, Sittings.Place> places = new Sittings(PAUSE, true, Diary.EMPTY).places(frames);
        assertThat(who(places, "1 B1")).contains("PG-0001");
        assertThat(places.get("2 A2").reason()).contains(Reason.ANOTHER_MEMORY_CARD);
    }

    private static Frame undated(Frame frame) {
        return new Frame(frame.key(), frame.name(), frame.camera(), frame.medium(), Optional.empty(), frame.mark());
    }

    private static List<Frame> and(List<Frame> frames, Frame... more) {
        return Stream.concat(frames.stream(), Stream.of(more)).toList();
    }

    private static void assertUnclear(Map<String, Sittings.Place> places, String... names) {
        for (String name : names) {
            assertThat(who(places, name)).as(name).isEmpty();
            assertThat(places.get(name).reason()).as(name).contains(Reason.ORDER_UNCLEAR);
        }
    }

    @ParameterizedTest(name = "{0} of {1}")
    @DisplayName("merged, a frame without a time leaves the others to the cards of all cameras")
    @CsvSource({"A9, one", "B9, two", "C9, three", "B0, two"})
    void mergeWithoutTimes(String name, String camera) {
        List<Frame> frames = List.of(
                card("A1", "one", 0, "PG-0001"),
                frame("A2", "one", 1),
                card("B1", "two", 5, "PG-0005"),
                frame("A3", "one", 6));
        Map<String, Sittings.Place> places =
                new Sittings(PAUSE, true, Diary.EMPTY).places(and(frames, undated(frame(name, camera, 0))));
        assertThat(who(places, "A2")).contains("PG-0001");
        assertThat(who(places, "A3")).contains("PG-0005");
        assertUnclear(places, name);
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("a frame without a time does not make names alone decide about those that have one")
    @ValueSource(strings = {"A0", "A9"})
    void oneUndated(String name) {
        List<Frame> frames = List.of(
                card("A1", "one", 0, "PG-0001"),
                frame("A2", "one", 1),
                frame("A3", "one", 6),
                card("B1", "one", 5, "PG-0005"));
        Map<String, Sittings.Place> places =
                new Sittings(PAUSE, false, Diary.EMPTY).places(and(frames, undated(frame(name, "one", 0))));
        assertThat(who(places, "A2")).contains("PG-0001");
        assertUnclear(places, "A3", name);
    }

    @Test
    @DisplayName("a frame without a time gets the card that the frames before and after it by name have, and no other")
    void undatedBetween() {
        Map<String, Sittings.Place> places = new Sittings(PAUSE, false, Diary.EMPTY)
                .places(List.of(
                        undated(frame("A00", "one", 0)),
                        frame("A01", "one", 0),
                        undated(frame("A02", "one", 0)),
                        frame("A03", "one", 1),
                        undated(frame("A04", "one", 0)),
                        card("A05", "one", 2, "PG-0001"),
                        undated(frame("A06", "one", 0)),
                        undated(frame("A07", "one", 0)),
                        frame("A08", "one", 3),
                        undated(frame("A09", "one", 0)),
                        card("A10", "one", 4, "PG-0005"),
                        frame("A11", "one", 5),
                        undated(frame("A12", "one", 0)),
                        frame("A13", "one", 50),
                        undated(frame("A14", "one", 0))));
        assertThat(who(places, "A06")).contains("PG-0001");
        assertThat(who(places, "A07")).contains("PG-0001");
        assertThat(places.get("A07")).isEqualTo(places.get("A08"));
        assertThat(places.get("A02").reason()).contains(Reason.BEFORE_FIRST_CARD);
        assertUnclear(places, "A00", "A04", "A09", "A12", "A14");
        assertThat(who(places, "A11")).contains("PG-0005");
        assertThat(places.get("A13").reason()).contains(Reason.AFTER_A_PAUSE);
    }

    @Test
    @DisplayName(
            "a card without a time puts in doubt what may have been taken after it, with every camera it counts for")
    void undatedCard() {
        List<Frame> frames = List.of(
                card("A1", "one", 0, "PG-0001"),
                frame("A2", "one", 1),
                frame("B2", "two", 2),
                undated(card("B3", "two", 0, "PG-0005")),
                frame("A4", "one", 5),
                frame("B4", "two", 6),
                frame("A5", "one", 7),
                card("A6", "one", 8, "PG-0003"),
                frame("A7", "one", 9),
                frame("B7", "two", 10));
        Map<String, Sittings.Place> merged = new Sittings(PAUSE, true, Diary.EMPTY).places(frames);
        assertThat(who(merged, "A2")).contains("PG-0001");
        assertThat(who(merged, "B2")).contains("PG-0001");
        assertUnclear(merged, "A4", "B4", "A5");
        assertThat(who(merged, "A7")).contains("PG-0003");
        Map<String, Sittings.Place> apart = new Sittings(PAUSE, false, Diary.EMPTY).places(frames);
        assertThat(who(apart, "A5")).as("of another camera").contains("PG-0001");
        assertThat(apart.get("B2").reason()).contains(Reason.BEFORE_FIRST_CARD);
        assertUnclear(apart, "B4", "B7");
    }

    @Test
    @DisplayName(
            "a card without a time that cannot be read puts what follows by name in doubt; the same card again nothing")
    void undatedBroken() {
        Frame broken = new Frame(
                "A3", "A3", "one", 0, Optional.empty(), Optional.of(new Frame.Broken(Reason.CARD_UNREADABLE)));
        List<Frame> frames = List.of(card("A1", "one", 0, "PG-0001"), frame("A2", "one", 1), frame("A4", "one", 2));
        Map<String, Sittings.Place> places = new Sittings(PAUSE, false, Diary.EMPTY).places(and(frames, broken));
        assertThat(who(places, "A2")).contains("PG-0001");
        assertUnclear(places, "A4");
        Map<String, Sittings.Place> again =
                new Sittings(PAUSE, false, Diary.EMPTY).places(and(frames, undated(card("A3", "one", 0, "PG-0001"))));
        assertThat(who(again, "A4")).contains("PG-0001");
        Map<String, Sittings.Place> alone = new Sittings(PAUSE, false, Diary.EMPTY)
                .places(List.of(frame("A2", "one", 1), broken, frame("A4", "one", 2)));
        assertThat(alone.get("A2").reason()).contains(Reason.BEFORE_FIRST_CARD);
        assertUnclear(alone, "A4");
    }

    @Test
    @DisplayName("where no frame has a time, no card counts; where there is no card, nothing is unclear")
    void nothingDated() {
        Map<String, Sittings.Place> places = new Sittings(PAUSE, false, Diary.EMPTY)
                .places(List.of(undated(card("A1", "one", 0, "PG-0001")), undated(frame("A2", "one", 0))));
        assertUnclear(places, "A2");
        for (boolean merged : new boolean[] {false, true}) {
            Map<String, Sittings.Place> cardless = new Sittings(PAUSE, merged, Diary.EMPTY)
                    .places(List.of(undated(frame("A2", "one", 0)), frame("A3", "one", 1), frame("B1", "two", 1)));
            assertThat(cardless.values())
                    .extracting(Sittings.Place::reason)
                    .containsOnly(Optional.of(Reason.NO_PATIENT));
        }
    }

    @Test
    @DisplayName("in the order of taking, a frame without a time lies after the one before it by name")
    void orderOfUndated() {
        List<Frame> frames = List.of(
                undated(frame("A3", "one", 0)),
                frame("A4", "one", 7),
                frame("A2", "one", 1),
                frame("B1", "two", 2),
                undated(frame("B0", "two", 0)),
                undated(frame("C1", "three", 0)));
        assertThat(frames.stream().sorted(Sittings.order(frames)).map(Frame::name))
                .containsExactly("C1", "A2", "A3", "B0", "B1", "A4");
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
