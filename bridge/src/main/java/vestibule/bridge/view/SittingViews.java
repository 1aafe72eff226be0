package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Decides which view each photograph of a sitting shows. A person's word counts most, then the words in the name of file and folder; the
 * order for a set only proposes. Whatever contradicts stops.
 */
public final class SittingViews {

    private final ViewRules rules;
    private final NameWords words;

    /** Under these rules. */
    public SittingViews(ViewRules rules) {
        this.rules = rules;
        this.words = new NameWords(rules.views(), rules.sets(), rules.customs());
    }

    /**
     * Decides the photographs of one sitting.
     *
     * @param shots all of one patient's photographs that were taken together, in the order in which they were taken
     */
    public SittingReport decide(List<Shot> shots) {
        List<Reading> readings = shots.stream().map(this::read).toList();
        return decided(shots, readings, chosen(readings));
    }

    /**
     * Decides a part of a sitting that is too long to be looked at as a whole: by words alone, since the order of a part would say what is
     * not so.
     */
    public SittingReport decideWithoutOrder(List<Shot> shots) {
        List<Reading> readings = shots.stream().map(this::read).toList();
        return decided(shots, readings, new SetChoice(Optional.empty(), Optional.empty()));
    }

    private SittingReport decided(List<Shot> shots, List<Reading> readings, SetChoice choice) {
        if (choice.set.isPresent()) {
            new SetFilling(rules, choice.set.get()).fill(readings);
        }
        List<ViewRuling> rulings = readings.stream()
                .filter(reading -> reading.shot.isOpen())
                .map(reading -> choice.doubt.isPresent() && reading.view.isEmpty() && reading.doubt.isEmpty()
                        ? new ViewRuling.InDoubt(
                                reading.shot.photo(),
                                ViewReason.SEVERAL_SETS_NAMED,
                                choice.doubt.get(),
                                Optional.empty())
                        : new Judgement(rules, choice.set).of(reading))
                .toList();
        List<ViewRuling> numbered = InstanceNumbers.given(choice.set, shots, rulings);
        return choice.set
                .map(set -> SetProgress.of(set, numbered, readings))
                .orElseGet(() -> new SittingReport(Optional.empty(), numbered, List.of(), List.of(), List.of()));
    }

    /** What is known of one shot, filled in step by step. */
    static final class Reading {
        final Shot shot;
        final NameWords.Named named;
        Optional<Answers> answers = Optional.empty();
        Optional<ViewRuling.InDoubt> doubt = Optional.empty();
        Optional<View> view = Optional.empty();
        Optional<String> stage = Optional.empty();
        Optional<Integer> place = Optional.empty();
        List<String> evidence = new ArrayList<>();
        boolean repeated;
        Optional<View> proposed = Optional.empty();
        boolean orderDecides;
        boolean orderFailed;

        Reading(Shot shot, NameWords.Named named) {
            this.shot = shot;
            this.named = named;
        }

        void doubt(ViewReason reason, String message) {
            doubt = Optional.of(new ViewRuling.InDoubt(shot.photo(), reason, message, Optional.empty()));
        }
    }

    private Reading read(Shot shot) {
        Reading reading = new Reading(shot, words.in(shot.names()));
        if (!shot.isOpen()) {
            reading.view = rules.views().view(shot.before().orElseThrow().view());
            reading.stage = shot.before().orElseThrow().stage();
            return reading;
        }
        try {
            Answers answers = Answers.of(shot.said(), rules.views(), rules.sets());
            reading.answers = Optional.of(answers);
            reading.stage = answers.stage().or(() -> shot.before().flatMap(Shot.Before::stage));
            readView(reading, answers);
        } catch (Answers.UnknownWordException e) {
            reading.doubt(ViewReason.VIEW_WORD_UNKNOWN, String.valueOf(e.getMessage()));
        }
        return reading;
    }

    private void readView(Reading reading, Answers answers) {
        Set<String> named = reading.named.views();
        if (answers.view().isPresent()) {
            reading.view = answers.view();
            reading.evidence.add("view: a person");
        } else if (reading.shot.before().isPresent()) {
            // Why it is that view, its decision says
            reading.view = rules.views().view(reading.shot.before().get().view());
        } else if (named.size() == 1) {
            reading.view = rules.views().view(named.iterator().next());
            reading.evidence.add("view: name of file or folder");
        } else if (named.size() > 1) {
            reading.doubt(
                    ViewReason.SEVERAL_VIEWS_NAMED,
                    "The names of file and folder name several views (%s): say which it is."
                            .formatted(String.join(", ", named)));
        }
    }

    /**
     * Which set a sitting is.
     *
     * @param doubt why none is taken though some were named
     */
    private record SetChoice(Optional<PhotoSet> set, Optional<String> doubt) {}

    private SetChoice chosen(List<Reading> readings) {
        Set<String> said = new TreeSet<>();
        Set<String> named = new TreeSet<>();
        for (Reading reading : readings) {
            reading.answers.flatMap(Answers::set).ifPresent(said::add);
            named.addAll(reading.named.sets());
        }
        Set<String> telling = said.isEmpty() ? named : said;
        if (telling.size() > 1) {
            return new SetChoice(
                    Optional.empty(),
                    Optional.of("The photographs of this sitting name several sets (%s): say which one it is."
                            .formatted(String.join(", ", telling))));
        }
        Optional<String> id = telling.isEmpty()
                ? rules.setCustoms().usual()
                : Optional.of(telling.iterator().next());
        return new SetChoice(id.flatMap(rules.sets()::set), Optional.empty());
    }

    /** Whether names that the bytes of a photograph lie under say another view or capture than what was decided of it before. */
    public boolean contradictedByName(Shot shot) {
        if (shot.before().isEmpty()) {
            return false;
        }
        Shot.Before before = shot.before().get();
        NameWords.Named named = words.in(shot.names());
        boolean otherView = !before.viewByPerson()
                && !named.views().isEmpty()
                && !named.views().equals(Set.of(before.view()));
        boolean otherCapture = before.capture()
                .filter(capture -> !before.captureByPerson()
                        && !named.captures().isEmpty()
                        && !named.captures().equals(Set.of(capture))
                        && !mirroredBackAsNamed(named.captures(), capture))
                .isPresent();
        return otherView || otherCapture;
    }

    /** Where the camera mirrors back by itself, a picture that its name calls direct was decided as such a one. */
    private static boolean mirroredBackAsNamed(Set<Capture> named, Capture decided) {
        return decided == Capture.MIRROR_FLIPPED && named.equals(Set.of(Capture.DIRECT));
    }

    /** The rulings by photograph, for callers that look them up. */
    public static Map<String, ViewRuling> byPhoto(SittingReport report) {
        Map<String, ViewRuling> rulings = new LinkedHashMap<>();
        report.rulings().forEach(ruling -> rulings.put(ruling.photo(), ruling));
        return rulings;
    }
}
