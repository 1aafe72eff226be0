package vestibule.bridge.patient;

import java.time.Duration;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The appointments of one chair, to notice that a new patient sat down and nobody photographed a card.
 *
 * @param known everybody with an appointment
 */
public record Diary(List<Known> known) {

    /** No appointments. */
    public static final Diary EMPTY = new Diary(List.of());

    /** Patients are photographed a little before or after the minute of their appointment (common practice, no source). */
    private static final Duration SLACK = Duration.ofMinutes(5);

    public Diary {
        known = List.copyOf(known);
    }

    /**
     * Whether somebody else's appointment had begun.
     *
     * @param id the patient on the card
     * @param card when the card was photographed
     * @param taken when the photograph was
     */
    boolean another(String id, LocalDateTime card, LocalDateTime taken) {
        Optional<Known> latest = known.stream()
                .filter(one -> start(one).isPresent())
                .filter(one -> !start(one).get().minus(SLACK).isAfter(taken))
                .max(Comparator.comparing(one -> start(one).get()));
        return latest.isPresent()
                && !latest.get().patient().id().equals(id)
                && card.isBefore(start(latest.get()).get().minus(SLACK));
    }

    private static Optional<LocalDateTime> start(Known known) {
        return known.appointment().flatMap(Known.Appointment::start);
    }
}
