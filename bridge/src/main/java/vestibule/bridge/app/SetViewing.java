package vestibule.bridge.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import vestibule.bridge.view.CameraOrRoom;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.Correction;
import vestibule.bridge.view.Frame;
import vestibule.bridge.view.Laid;
import vestibule.bridge.view.PhotoSet;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.Said;
import vestibule.bridge.view.Shot;
import vestibule.bridge.view.SittingReport;
import vestibule.bridge.view.SittingViews;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewReason;
import vestibule.bridge.view.ViewRules;
import vestibule.bridge.view.ViewRuling;

/** Views by a person's word, by the names of files and folders, and by the order for a set. */
final class SetViewing implements Viewing {

    private static final Set<String> OF_VIEW = Set.of("view", "capture", "correct-by", "teeth", "like", "set", "stage");

    private final ViewRules rules;

    SetViewing(ViewRules rules) {
        this.rules = rules;
    }

    @Override
    public Looked look(Sitting sitting) throws IOException {
        SittingReport report = report(sitting);
        Map<String, ViewRuling> rulings = SittingViews.byPhoto(report);
        List<Look> looks = new ArrayList<>();
        for (Sitting.Shot shot : sitting.shots()) {
            Optional<DecisionText> before = before(shot.candidate());
            ViewRuling ruling = rulings.get(shot.candidate().photo());
            if (before.isPresent() && new SittingViews(rules).contradictedByName(shot(shot))) {
                looks.add(filedOtherwise(before.get()));
            } else if (before.isPresent() && !spokenOfView(shot.candidate())) {
                looks.add(seen(before.get()));
            } else if (ruling instanceof ViewRuling.Placed placed) {
                Seen seen = seen(shot, placed, report.set());
                looks.add(before.map(filed -> grounded(seen, filed)).orElse(seen));
            } else if (ruling instanceof ViewRuling.InDoubt doubt) {
                looks.add(new Unsure(
                        doubt.reason().code(),
                        doubt.message().replaceAll("\\.$", ""),
                        doubt.proposal().map(placed -> seen(shot, placed, report.set()))));
            } else {
                throw new IllegalStateException("a photograph of the sitting has no ruling");
            }
        }
        return new Looked(looks, report);
    }

    private static Look filedOtherwise(DecisionText before) {
        return new Unsure(
                ViewReason.FILED_AS_ANOTHER_VIEW.code(),
                "it is in the archive as %s, and its bytes lie under a name that says otherwise: say which view, and which capture, is right"
                        .formatted(before.shown().orElseThrow().view()),
                Optional.empty());
    }

    /** What is kept of how it was filed keeps its grounds. */
    private static Seen grounded(Seen seen, DecisionText filed) {
        List<Ground> grounds = new ArrayList<>(seen(filed).grounds());
        grounds.removeIf(
                old -> seen.grounds().stream().anyMatch(ground -> ground.about().equals(old.about())));
        grounds.addAll(seen.grounds());
        return new Seen(seen.shown(), seen.set(), seen.stage(), seen.number(), grounds);
    }

    /** Where the order may decide, it takes a look at the pictures as well. */
    private SittingReport report(Sitting sitting) throws IOException {
        ViewRules looking = rules.setCustoms().acceptOrder() ? rules.looking(PhotoLook.of(sitting)) : rules;
        List<Shot> shots = sitting.shots().stream().map(SetViewing::shot).toList();
        return sitting.whole()
                ? new SittingViews(looking).decide(shots)
                : new SittingViews(looking).decideWithoutOrder(shots);
    }

    private static Shot shot(Sitting.Shot shot) {
        FrameReader.Frame frame = shot.frame();
        int width = frame.header().samplesPerLine();
        int height = frame.header().lines();
        List<String> names = new ArrayList<>(shot.candidate().photograph().otherNames());
        names.add(0, shot.candidate().name());
        List<List<String>> rooms = rooms(shot);
        return new Shot(
                shot.candidate().photo(),
                names,
                Optional.of(frame.upright().exchangesAxes() ? Frame.of(height, width) : Frame.of(width, height)),
                frame.upright(),
                frame.noteDoubt(),
                rooms.get(0),
                rooms.subList(1, rooms.size()),
                shot.candidate().statements().stream()
                        .flatMap(statement -> said(statement).stream())
                        .toList(),
                before(shot.candidate()).map(decision -> before(shot.candidate(), decision)),
                heard(shot.candidate()));
    }

    /** How the last decision laid it, unless a person said a flip since that it does not take account of. */
    private static Optional<Laid> heard(Deciding.Candidate candidate) {
        boolean flipSaid =
                candidate.unheard().stream().anyMatch(word -> word.about().equals("correct-by"));
        return flipSaid
                ? Optional.empty()
                : decision(candidate).flatMap(DecisionText::shown).map(DecisionText.Shown::laid);
    }

    /**
     * What camera and room are called for each name that its bytes lie under, its own first. Of a folder that the settings do not name
     * nothing is said, so that what they say of a folder with another copy counts there as well.
     */
    private static List<List<String>> rooms(Sitting.Shot shot) {
        Deciding.Candidate candidate = shot.candidate();
        List<List<String>> each = Stream.concat(
                        Stream.of(candidate.photograph().folder() + "/" + candidate.name()),
                        candidate.photograph().otherNames().stream())
                .map(file -> CameraOrRoom.names(shot.frame().cameras(), file))
                .toList();
        return each.stream()
                .map(first -> Stream.concat(first.stream(), each.stream().flatMap(List::stream))
                        .distinct()
                        .toList())
                .distinct()
                .toList();
    }

    private static Shot.Before before(Deciding.Candidate candidate, DecisionText decision) {
        DecisionText.Shown shown = decision.shown().orElseThrow();
        boolean otherSet =
                candidate.unheard().stream().anyMatch(word -> word.about().equals("set"));
        return new Shot.Before(
                shown.view(),
                // The stage may be that of the set which it was filed by
                otherSet ? Optional.empty() : decision.visit().stage(),
                decision.visit().instanceNumber(),
                shown.capture(),
                shown.laid(),
                personSaid(candidate, decision, "view"),
                personSaid(candidate, decision, "capture"),
                spokenOfView(candidate));
    }

    private static boolean personSaid(Deciding.Candidate candidate, DecisionText decision, String about) {
        return candidate.statements().stream()
                        .anyMatch(statement -> statement.about().equals(about))
                || decision.grounds().stream()
                        .anyMatch(ground ->
                                ground.about().equals(about) && ground.kind().contains("a person"));
    }

    private static boolean spokenOfView(Deciding.Candidate candidate) {
        return candidate.unheard().stream().anyMatch(word -> OF_VIEW.contains(word.about()));
    }

    /** Who accepts a proposal accepts the view that was proposed then, which the statement holds; where it holds none, it is of something else. */
    private static Optional<Said> said(Deciding.Statement statement) {
        return statement.about().equals("accept")
                ? Words.proposal(statement).flatMap(DecisionText::shown).map(shown -> new Said("accept", shown.view()))
                : Optional.of(new Said(statement.about(), statement.value()));
    }

    /**
     * What was decided and sent, unless a person said since that it shows or was taken otherwise. Whoever says whose it is, its stage or its
     * teeth has not looked at the mirror, which settings may say otherwise of by now.
     */
    private static Optional<DecisionText> before(Deciding.Candidate candidate) {
        return decision(candidate)
                .filter(decision -> candidate.filed())
                .filter(decision -> decision.shown()
                        .filter(shown -> !saidOtherwise(candidate.unheard(), shown))
                        .isPresent());
    }

    private static Optional<DecisionText> decision(Deciding.Candidate candidate) {
        if (candidate.decision().isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(DecisionText.read(candidate.decision().get()));
        } catch (Failure ofAnotherVersion) {
            return Optional.empty();
        }
    }

    /**
     * Whether words say another view, direction or capture than it was filed with, or take back what was said of its flip; what is said as it
     * was filed changes nothing.
     */
    private static boolean saidOtherwise(List<Deciding.Statement> words, DecisionText.Shown filed) {
        return isOther(words, "view", Optional.of(filed.view()))
                || isOther(words, "like", filed.like())
                || isOther(words, "capture", filed.capture().map(Capture::word))
                || isFlipTakenBack(words)
                || words.stream()
                        .flatMap(word -> Words.proposal(word).flatMap(DecisionText::shown).stream())
                        .anyMatch(accepted -> !accepted.view().equals(filed.view()));
    }

    private static boolean isFlipTakenBack(List<Deciding.Statement> words) {
        return words.stream()
                .anyMatch(word -> word.about().equals("correct-by")
                        && word.value().strip().equals(Correction.USUAL));
    }

    private static boolean isOther(List<Deciding.Statement> words, String about, Optional<String> filed) {
        return words.stream()
                .filter(word -> word.about().equals(about))
                .reduce((earlier, later) -> later)
                .map(word -> word.value().strip())
                .filter(said -> !filed.equals(Optional.of(said)))
                .isPresent();
    }

    private static Seen seen(DecisionText decision) {
        return new Seen(
                decision.shown().orElseThrow(),
                decision.visit().protocol(),
                decision.visit().stage(),
                decision.visit().instanceNumber(),
                decision.grounds().stream()
                        .filter(ground -> !ground.about().equals("patient"))
                        .toList());
    }

    private static Seen seen(Sitting.Shot shot, ViewRuling.Placed placed, Optional<PhotoSet> set) {
        Placement placement = placed.placement();
        return new Seen(
                new DecisionText.Shown(
                        placement.view().id(),
                        Optional.of(placement.capture()),
                        placed.correction(),
                        placement.orientation(),
                        placed.like().map(View::id),
                        placement.teeth().stream().map(Tooth::designation).toList()),
                set.map(PhotoSet::name),
                placed.stage(),
                Optional.of(placed.number()),
                grounds(shot.candidate(), placed.evidence()));
    }

    /** All names that its bytes lie under, for the word may stand in any of them. */
    private static String names(Deciding.Candidate candidate) {
        List<String> names = new ArrayList<>(candidate.photograph().otherNames());
        names.add(0, candidate.name());
        return String.join(" or ", names);
    }

    private static List<Ground> grounds(Deciding.Candidate candidate, List<String> evidence) {
        List<Ground> grounds = new ArrayList<>();
        for (String words : evidence) {
            int parted = words.indexOf(": ");
            String about = words.substring(0, parted);
            Optional<Deciding.Statement> said = candidate.statements().stream()
                    .filter(statement -> statement.about().equals(about)
                            || (about.equals("view") && statement.about().equals("accept")))
                    .reduce((earlier, later) -> later);
            boolean person = words.contains("a person");
            grounds.add(new Ground(
                    about,
                    words.substring(parted + 2),
                    person ? said.map(Deciding.Statement::at).orElse(candidate.takenIn()) : candidate.takenIn(),
                    person ? said.flatMap(Deciding.Statement::by).orElse("somebody") : names(candidate)));
        }
        return grounds;
    }
}
