package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import vestibule.dicom.jpeg.Turn;

/** From what is known of a shot to its ruling. */
final class Judgement {

    private static final String CAPTURE_SAID = "capture: a person";
    private static final String TEETH_SAID = "teeth: a person";
    private static final String IN_OTHER_ROOMS =
            "Copies of it lie in folders of which the settings say that pictures are taken otherwise (views.mirror-of, views.direct-of): look at the picture, and say the capture, and correct-by as well if the camera was rolled.";

    private final ViewRules rules;
    private final Optional<PhotoSet> set;

    Judgement(ViewRules rules, Optional<PhotoSet> set) {
        this.rules = rules;
        this.set = set;
    }

    ViewRuling of(SittingViews.Reading reading) {
        if (reading.doubt.isPresent()) {
            return reading.doubt.get();
        }
        Answers answers = reading.answers.orElseThrow();
        if (reading.view.isPresent() && reading.shot.before().isPresent()) {
            return filed(
                    reading, reading.view.get(), answers, reading.shot.before().get());
        }
        if (reading.view.isPresent()) {
            return checked(reading, reading.view.get(), answers, List.copyOf(reading.evidence));
        }
        if (reading.proposed.isEmpty()) {
            return unknown(reading);
        }
        View proposed = reading.proposed.get();
        if (reading.orderDecides) {
            return placed(
                    reading, proposed, answers, List.of("view: order of the set, which the practice lets decide"));
        }
        if (answers.accepted().isPresent()) {
            String accepted = answers.accepted().get();
            return accepted.equals(proposed.id())
                    ? placed(reading, proposed, answers, List.of("view: a proposal that a person accepted"))
                    : doubt(
                            reading,
                            ViewReason.PROPOSAL_CHANGED,
                            "The view that was accepted is no longer the one proposed, which is %s: say which it is."
                                    .formatted(proposed.id()),
                            Optional.empty());
        }
        return proposal(reading, proposed, answers);
    }

    /**
     * How a filed picture was taken stays as it was decided, and which way it lies, whatever settings say by now: nobody spoke of the mirror.
     */
    private ViewRuling filed(SittingViews.Reading reading, View view, Answers answers, Shot.Before before) {
        List<String> cameras = reading.shot.cameras();
        try {
            boolean flipSaid =
                    answers.correction().isPresent() && reading.shot.heard().isEmpty();
            Laid laid = flipSaid
                    ? rules.relaid(view, before, answers.correction().get(), answers.like(), answers.teeth(), cameras)
                    : before.laid();
            Placement placement = rules.decided(view, before.capture(), laid, answers.like(), answers.teeth(), cameras);
            List<String> evidence = new ArrayList<>(reading.evidence);
            if (answers.capture().isPresent() && placement.capture() != Capture.DIRECT) {
                evidence.add(CAPTURE_SAID);
            }
            if (!answers.teeth().isEmpty()) {
                evidence.add(TEETH_SAID);
            }
            return new ViewRuling.Placed(
                    reading.shot.photo(),
                    placement,
                    answers.like(),
                    laid.correction(),
                    reading.place,
                    reading.stage,
                    0,
                    evidence);
        } catch (ContradictionException e) {
            return contradiction(reading, e);
        }
    }

    private ViewRuling checked(SittingViews.Reading reading, View view, Answers answers, List<String> evidence) {
        boolean contradicted = answers.view().isEmpty()
                && rules.check()
                        .map(check -> check.of(reading.shot, view) == PictureCheck.Opinion.CONTRADICTS)
                        .orElse(false);
        if (contradicted) {
            return doubt(
                    reading,
                    ViewReason.PICTURE_CONTRADICTS_VIEW,
                    "The name says %s, and the picture does not look like it: say which view it is."
                            .formatted(view.id()),
                    Optional.empty());
        }
        return placed(reading, view, answers, evidence);
    }

    private ViewRuling unknown(SittingViews.Reading reading) {
        return reading.orderFailed && set.isPresent()
                ? doubt(
                        reading,
                        ViewReason.ORDER_DOES_NOT_FIT,
                        "The photographs do not lie in the order and number of the set %s, so the order says nothing: say which view it is."
                                .formatted(set.get().id()),
                        Optional.empty())
                : doubt(
                        reading,
                        ViewReason.VIEW_NOT_SAID,
                        "Nothing says which view this is: name the view, or the set of the sitting.",
                        Optional.empty());
    }

    private ViewRuling proposal(SittingViews.Reading reading, View view, Answers answers) {
        ViewRuling ruling = placed(reading, view, answers, List.of("view: proposed by the order of the set"));
        if (!(ruling instanceof ViewRuling.Placed placed)) {
            return ruling;
        }
        return doubt(
                reading,
                ViewReason.ORDER_PROPOSES,
                "By its place in the set %s this would be %s: accept it, or say which view it is."
                        .formatted(set.map(PhotoSet::id).orElse(""), view.id()),
                Optional.of(placed));
    }

    private ViewRuling placed(SittingViews.Reading reading, View view, Answers answers, List<String> viewEvidence) {
        Optional<Capture> named = reading.named.captures().size() == 1
                ? Optional.of(reading.named.captures().iterator().next())
                : Optional.empty();
        Optional<Capture> capture = answers.capture().or(() -> named);
        if (capture.isEmpty() && reading.named.captures().size() > 1) {
            return severalCaptures(reading);
        }
        if (rules.captureMissing(view, answers.like(), capture, reading.shot.cameras())) {
            return doubt(
                    reading,
                    ViewReason.CAPTURE_NOT_SAID,
                    rules.captureQuestion(view, answers.like(), reading.shot.cameras()),
                    Optional.empty());
        }
        try {
            Placement placement = rules.place(
                    view, capture, answers.correction(), answers.like(), answers.teeth(), reading.shot.cameras());
            Optional<String> question = question(reading, answers, placement);
            if (question.isEmpty() && takenOtherwiseElsewhere(reading.shot, view, capture, answers, placement)) {
                question = Optional.of(IN_OTHER_ROOMS);
            }
            if (question.isPresent()) {
                return doubt(reading, ViewReason.VIEW_CONTRADICTION, question.get(), Optional.empty());
            }
            return new ViewRuling.Placed(
                    reading.shot.photo(),
                    placement,
                    answers.like(),
                    rules.namedFlip(
                            answers.correction(),
                            rules.upright(view, capture, answers.like(), answers.teeth(), reading.shot.cameras()),
                            reading.shot.cameras()),
                    reading.place,
                    reading.stage,
                    0,
                    evidence(viewEvidence, placement, answers, named.isPresent()));
        } catch (ContradictionException e) {
            return contradiction(reading, e);
        }
    }

    /** Whether the settings of a room in which a copy lies would have it put right otherwise; who says capture and flip has said all of it. */
    private boolean takenOtherwiseElsewhere(
            Shot shot, View view, Optional<Capture> capture, Answers answers, Placement placement) {
        if (answers.capture().isPresent() && answers.correction().isPresent()) {
            return false;
        }
        return shot.copies().stream().anyMatch(room -> {
            try {
                return !rules.place(view, capture, answers.correction(), answers.like(), answers.teeth(), room)
                        .equals(placement);
            } catch (ContradictionException whatFitsHere) {
                return true;
            }
        });
    }

    /** Whoever says how it was taken, or what puts it right, has looked at the picture; who says how it was taken, at no roll of the camera. */
    private static Optional<String> question(SittingViews.Reading reading, Answers answers, Placement placement) {
        Turn noted = reading.shot.noted();
        if (answers.correction().isPresent()) {
            return saidOfAnotherWay(reading.shot, answers.correction().get(), placement);
        }
        return answers.capture().isPresent()
                ? CameraNote.questionOfRoll(noted, placement)
                : directOrNot(reading.named, placement)
                        .or(() -> reading.shot.noteDoubt().map(doubt -> CameraNote.unread(doubt, placement)))
                        .or(() -> CameraNote.question(noted, placement));
    }

    /** Who said a flip had the picture lie as it was decided then, under other settings or as another view. */
    private static Optional<String> saidOfAnotherWay(Shot shot, Correction flip, Placement placement) {
        return shot.heard()
                .filter(laid -> laid.isOtherWayBy(flip, placement.orientation()))
                .map(laid ->
                        "The flip %s was said when the picture was to lie %s, and it is to lie %s by now: look at it, and say the flip again (correct-by), or correct-by %s."
                                .formatted(
                                        flip.word(),
                                        laid.orientation().orElseThrow(),
                                        placement.orientation().orElse("no way"),
                                        Correction.USUAL));
    }

    private static ViewRuling contradiction(SittingViews.Reading reading, ContradictionException e) {
        return doubt(reading, ViewReason.VIEW_CONTRADICTION, String.valueOf(e.getMessage()), Optional.empty());
    }

    /** The word alone decides nothing, since folders of fillings hold it; but where the settings say another capture, it may deny that. */
    private static Optional<String> directOrNot(NameWords.Named named, Placement placement) {
        boolean other = placement.capture() != Capture.DIRECT && placement.capture() != Capture.MIRROR_FLIPPED;
        return named.captures().isEmpty() && named.perhapsDirect() && other
                ? Optional.of(
                        "The name holds the word direct, which may mean the capture or a filling, and the settings say that the picture was taken %s: say the capture."
                                .formatted(placement.capture().word()))
                : Optional.empty();
    }

    private static List<String> evidence(List<String> ofTheView, Placement placement, Answers answers, boolean named) {
        List<String> evidence = new ArrayList<>(ofTheView);
        if (placement.capture() != Capture.DIRECT) {
            evidence.add(
                    answers.capture().isPresent()
                            ? CAPTURE_SAID
                            : named ? "capture: name of file or folder" : "capture: settings");
        }
        if (!answers.teeth().isEmpty()) {
            evidence.add(TEETH_SAID);
        }
        return evidence;
    }

    private static ViewRuling severalCaptures(SittingViews.Reading reading) {
        return doubt(
                reading,
                ViewReason.SEVERAL_CAPTURES_NAMED,
                "The names of file and folder name several captures (%s): say which it is."
                        .formatted(reading.named.captures().stream()
                                .map(Capture::word)
                                .sorted()
                                .collect(Collectors.joining(", "))),
                Optional.empty());
    }

    private static ViewRuling doubt(
            SittingViews.Reading reading, ViewReason reason, String message, Optional<ViewRuling.Placed> proposal) {
        return new ViewRuling.InDoubt(reading.shot.photo(), reason, message, proposal);
    }
}
