package vestibule.bridge.app;

import java.io.IOException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoCheck;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.sheet.Card;
import vestibule.bridge.sheet.Sitting;
import vestibule.bridge.sheet.Thumbnail;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.jpeg.Turn;

/** The sittings of the outbox as the contact sheet shows them, before anything of them need be sent: what is decided, proposed and in doubt. */
final class OutboxSheet {

    private final Outbox outbox;
    private final Originals originals;
    private final ViewRules rules;
    private final Optional<PhotographSearch> archive;
    private final List<String> notes = new ArrayList<>();

    /** @param archive who may have earlier photographs; empty where nobody is asked */
    OutboxSheet(Outbox outbox, Originals originals, ViewRules rules, Optional<PhotographSearch> archive) {
        this.outbox = outbox;
        this.originals = originals;
        this.rules = rules;
        this.archive = archive;
    }

    /** What came up while the page was made, a sentence each. */
    List<String> notes() {
        return List.copyOf(notes);
    }

    /** One photograph of a sitting with all that is known of it. */
    private record Shown(Overview.Photograph photo, DecisionText decision, Optional<Photo> read) {

        Optional<Placement> placement(ViewRules rules) {
            if (decision.shown().isEmpty()) {
                return Optional.empty();
            }
            try {
                return Optional.of(decision.shown().get().placement(rules));
            } catch (ContradictionException | Failure inDoubt) {
                return Optional.empty();
            }
        }
    }

    /** A sitting; its identifiers are those that every one of its photographs is decided or proposed for. */
    Sitting sitting(SittingState state) throws IOException {
        List<Shown> shown = new ArrayList<>();
        for (String photo : state.photos()) {
            for (Overview.Photograph one : outbox.overview().named(photo)) {
                shown.add(shown(one));
            }
        }
        List<Card> cards = new ArrayList<>();
        for (Shown one : shown) {
            cards.add(card(one));
        }
        Optional<Patient> patient =
                shown.stream().flatMap(one -> one.decision().patient().stream()).findFirst();
        boolean decided =
                shown.stream().anyMatch(one -> one.decision().patient().isPresent() && !inDoubtWho(one.photo()));
        List<String> identifiers = patient.map(OutboxSheet::identifiers).orElse(List.of("identifiers not known"));
        List<String> heading = new ArrayList<>();
        day(shown).ifPresent(day -> heading.add(day.toString()));
        state.set().ifPresent(heading::add);
        heading.add("not everything of it need have been sent yet");
        List<String> missing = new ArrayList<>(state.missing());
        state.twice().forEach(name -> missing.add("nothing, but taken twice: " + name));
        return new Sitting(
                patient.map(who -> ObjectCard.name(who.name().toString()) + (decided ? "" : " (only a proposal)")),
                identifiers,
                heading,
                missing,
                patient.isPresent() && decided ? earlier(patient.get(), shown) : List.of(),
                cards);
    }

    private Shown shown(Overview.Photograph photo) throws IOException {
        Optional<Photo> read = Optional.empty();
        try {
            read = Optional.of(Photo.read(originals.path(photo.photo())));
        } catch (PhotoException unusable) {
            notes.add("%s: %s.".formatted(photo.name(), unusable.getMessage()));
        }
        Optional<String> text = outbox.overview().decision(photo.photo());
        try {
            return new Shown(photo, text.isPresent() ? DecisionText.read(text.get()) : DecisionText.NOTHING, read);
        } catch (Failure ofAnotherVersion) {
            return new Shown(photo, DecisionText.NOTHING, read);
        }
    }

    private static boolean inDoubtWho(Overview.Photograph photo) {
        return photo.state() == PhotoState.NEEDS_ATTENTION
                && Arrays.stream(Reason.values())
                        .anyMatch(reason -> photo.reason().equals(Optional.of(reason.code())));
    }

    private static List<String> identifiers(Patient patient) {
        return List.of(
                "ID " + patient.id()
                        + patient.issuer().map(issuer -> " (" + issuer + ")").orElse(""),
                patient.birthDate().map(day -> "born " + day).orElse("birth date not known"));
    }

    private static Optional<LocalDate> day(List<Shown> shown) {
        return shown.stream()
                .flatMap(one -> one.read().stream()
                        .flatMap(photo -> photo.camera().captured().stream())
                        .map(time -> time.plus(one.decision().clock()).local().toLocalDate()))
                .findFirst();
    }

    private Card card(Shown one) throws IOException {
        Optional<Placement> placement = one.placement(rules);
        Turn turn = one.read().map(Photo::upright).orElse(Turn.NONE);
        if (placement.isPresent()) {
            turn = turn.then(placement.get().putRight());
        }
        return new Card(
                one.photo().name(),
                standing(one),
                one.decision()
                        .shown()
                        .flatMap(shown -> rules.views().view(shown.view()))
                        .map(View::label),
                ObjectCard.side(placement.flatMap(Placement::laterality).orElse("")),
                placement.flatMap(Placement::orientation).map(OutboxSheet::directions),
                facts(one, placement),
                one.photo().message(),
                one.read().isPresent() ? Thumbnail.of(originals.path(one.photo().photo()), turn) : Optional.empty());
    }

    private static Card.Standing standing(Shown one) {
        return switch (one.photo().state()) {
            case NEEDS_ATTENTION ->
                one.decision().shown().isPresent() ? Card.Standing.PROPOSED : Card.Standing.DOUBTFUL;
            case REJECTED -> Card.Standing.DOUBTFUL;
            case WAITING, SET_ASIDE -> Card.Standing.DECIDED;
            case SENT, COMMITTED -> Card.Standing.FILED;
        };
    }

    private static Card.Directions directions(String orientation) {
        String[] letters = orientation.split("\\\\", -1);
        return new Card.Directions(letters[0], letters[1]);
    }

    private List<String> facts(Shown one, Optional<Placement> placement) throws IOException {
        List<String> facts = new ArrayList<>();
        facts.add("state: " + one.photo().state().word());
        placement.ifPresent(known -> facts.add("capture: " + known.capture().word()));
        String teeth = placement.stream()
                .flatMap(known -> known.teeth().stream())
                .map(Tooth::words)
                .reduce((first, next) -> first + ", " + next)
                .orElse("");
        if (!teeth.isEmpty()) {
            facts.add("teeth: " + teeth);
        }
        one.decision().visit().stage().ifPresent(stage -> facts.add("stage: " + stage));
        howItCameOut(one, placement).forEach(note -> facts.add("hint: " + note));
        return facts;
    }

    /** Hints for whoever may take it again while the patient is there. */
    private static List<String> howItCameOut(Shown one, Optional<Placement> placement) throws IOException {
        if (one.read().isEmpty() || one.photo().state() == PhotoState.SET_ASIDE) {
            return List.of();
        }
        Optional<PhotoCheck> check = PhotoCheck.of(one.read().get());
        if (check.isEmpty()) {
            return List.of();
        }
        return check.get()
                .notes(
                        placement.map(known -> PhotoLook.usual(known.view())).orElse(Set.of()),
                        placement.map(Placement::putRight).orElse(Turn.NONE));
    }

    private List<String> earlier(Patient patient, List<Shown> shown) throws IOException {
        Optional<LocalDate> day = day(shown);
        if (archive.isEmpty() || day.isEmpty()) {
            return List.of();
        }
        try {
            EarlierPhotographs earlier = EarlierPhotographs.of(archive.get(), patient);
            Set<String> lines = new LinkedHashSet<>();
            for (Shown one : shown) {
                one.placement(rules)
                        .ifPresent(placement -> lines.addAll(earlier.lines(
                                placement.view().id(),
                                placement.view().label(),
                                placement.laterality(),
                                DateTimeFormatter.BASIC_ISO_DATE.format(day.get()))));
            }
            return List.copyOf(lines);
        } catch (SearchException e) {
            notes.add("Earlier photographs: the archive could not be asked: %s.".formatted(e.getMessage()));
            return List.of();
        }
    }
}
