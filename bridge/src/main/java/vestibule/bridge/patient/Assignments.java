package vestibule.bridge.patient;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Ties all photographs of a source to patients: by the cards among them, by what is written on each, or by a person's word. */
public final class Assignments {

    /** A card that failed may name somebody else, so that no other evidence makes up for it but a person's word. */
    public static final Set<Reason> GRAVE =
            Set.of(Reason.CARD_UNREADABLE, Reason.CARD_MIRRORED, Reason.ORDER_UNCLEAR, Reason.ANOTHER_APPOINTMENT);

    private final Sittings sittings;
    private final Matching matching;
    private final CaptureChecks checks;

    /**
     * @param sittings cuts the source
     * @param matching finds the patient
     * @param checks compares moments
     */
    public Assignments(Sittings sittings, Matching matching, CaptureChecks checks) {
        this.sittings = sittings;
        this.matching = matching;
        this.checks = checks;
    }

    /**
     * A file of the source with all that is known of it.
     *
     * @param frame where it stands among the others
     * @param fileTime when the file was changed, by its source
     * @param takenIn when it was taken in
     * @param clockSaid whether the practice said of its camera's clock by how much it is wrong, or that it is right
     * @param said a person's word on the patient
     * @param seenBeside the patient whom a person saw beside it in accepting something else, such as its view; no evidence by itself
     * @param written what its names and the camera's text say
     * @param elsewhere what the cards of other sources say in which it lies as well
     */
    public record Item(
            Frame frame,
            Instant fileTime,
            Instant takenIn,
            boolean clockSaid,
            Optional<Evidence> said,
            Optional<Evidence> seenBeside,
            List<Evidence> written,
            List<Heard> elsewhere) {
        public Item {
            written = List.copyOf(written);
            elsewhere = List.copyOf(elsewhere);
        }

        /** One that lies in no other source, beside which nobody saw a patient, and of whose camera nobody said anything. */
        public Item(Frame frame, Instant fileTime, Instant takenIn, Optional<Evidence> said, List<Evidence> written) {
            this(frame, fileTime, takenIn, false, said, Optional.empty(), written, List.of());
        }
    }

    /**
     * What the cards of one source say of a photograph.
     *
     * @param card the card before it
     * @param reason why none counts, where it may be that of another patient
     */
    public record Heard(Optional<Evidence> card, Optional<Reason> reason) {}

    /**
     * What a photograph was tied to.
     *
     * @param run the run of frames it lies in; photographs of one run and one patient are a sitting
     * @param match who it is, or why a person has to say
     */
    public record Assigned(int run, Match match) {}

    /** Cuts a source into sittings by all its frames. */
    public Cut cut(List<Frame> frames) {
        return new Cut(sittings.places(frames));
    }

    /** A source that is cut, whose photographs can be asked about one by one. */
    public final class Cut {

        private final Map<String, Sittings.Place> places;

        private Cut(Map<String, Sittings.Place> places) {
            this.places = places;
        }

        /** What the cards of this source say of one of its photographs; empty where they say nothing. */
        public Optional<Heard> heard(Frame frame) {
            return Optional.ofNullable(places.get(frame.key()))
                    .filter(place -> frame.mark().isEmpty())
                    .map(place -> new Heard(place.card(), place.reason().filter(GRAVE::contains)))
                    .filter(heard -> heard.card().isPresent() || heard.reason().isPresent());
        }

        /**
         * Ties a photograph to a patient; a card belongs to whom it names.
         *
         * @throws IOException if somebody who should be asked cannot be; then it is too early to decide
         */
        public Assigned of(Item item) throws IOException {
            Sittings.Place place = places.get(item.frame().key());
            if (place == null) {
                throw new IllegalArgumentException("not one of the photographs that were cut");
            }
            return new Assigned(place.run(), match(item, place));
        }
    }

    private Match match(Item item, Sittings.Place place) throws IOException {
        List<Evidence> evidence = new ArrayList<>();
        if (item.said().isPresent()) {
            evidence.add(item.said().get());
        } else {
            place.card().ifPresent(evidence::add);
            for (Heard heard : item.elsewhere()) {
                heard.card()
                        .filter(card ->
                                evidence.stream().noneMatch(one -> one.who().equals(card.who())))
                        .ifPresent(evidence::add);
            }
            evidence.addAll(item.written());
            Optional<Reason> stop = stop(item, place, evidence);
            if (stop.isPresent()) {
                return new Match.Doubt(stop.get(), Optional.empty());
            }
        }
        Match match = matching.match(evidence);
        Optional<Reason> doubt = match instanceof Match.Certain certain ? doubt(item, certain) : Optional.empty();
        return doubt.isPresent() ? new Match.Doubt(doubt.get(), Optional.empty()) : match;
    }

    private static Optional<Reason> doubt(Item item, Match.Certain certain) {
        if (item.seenBeside().filter(seen -> isSomebodyElse(seen, certain)).isPresent()) {
            return Optional.of(Reason.EVIDENCE_DISAGREES);
        }
        return item.frame()
                .taken()
                .flatMap(taken -> CaptureChecks.age(taken, certain.patient().birthDate()));
    }

    /** Whether a person accepted it as somebody else's; not where a person's later word, on it or on its card, says who it is. */
    private static boolean isSomebodyElse(Evidence seen, Match.Certain certain) {
        boolean saidSince = certain.evidence().stream()
                .anyMatch(one -> one instanceof Evidence.Said && !one.at().isBefore(seen.at()));
        boolean same = seen.who()
                .id()
                .filter(id -> certain.patient().isCalled(id, seen.who().issuer()))
                .isPresent();
        return !saidSince && !same;
    }

    private Optional<Reason> stop(Item item, Sittings.Place place, List<Evidence> evidence) {
        return place.reason()
                .filter(reason -> evidence.isEmpty() || GRAVE.contains(reason))
                .or(() -> item.elsewhere().stream()
                        .flatMap(heard -> heard.reason().stream())
                        .findFirst())
                .or(() -> item.frame().taken().flatMap(taken -> checks.clock(taken, item.fileTime(), item.takenIn())))
                .or(() -> unsetClock(item, evidence));
    }

    /**
     * Who photographs cards photographs for the visit of the day, and by a clock that began anew it would be that of another one. A person who
     * says on the card who it is has looked at the sitting; photographs sorted into folders may be of any year.
     */
    private Optional<Reason> unsetClock(Item item, List<Evidence> evidence) {
        boolean byCard = evidence.stream()
                .anyMatch(one -> one instanceof Evidence.PatientCard || one instanceof Evidence.BareCode);
        return byCard && !item.clockSaid()
                ? item.frame().taken().flatMap(taken -> checks.age(taken, item.takenIn()))
                : Optional.empty();
    }
}
