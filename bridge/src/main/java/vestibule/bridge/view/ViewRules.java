package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;

/**
 * All that decides about views in one practice.
 *
 * @param views the catalogue as the practice has it
 * @param sets its sets
 * @param customs how it photographs
 * @param setCustoms how it uses sets
 * @param profile how it codes
 * @param check a look at the pictures; empty where there is none
 */
public record ViewRules(
        ViewCatalogue views,
        SetCatalogue sets,
        Customs customs,
        SetCustoms setCustoms,
        CodingProfile profile,
        Optional<PictureCheck> check) {

    /** The rules that follow from a practice's customs. */
    public static ViewRules of(
            Customs customs, SetCustoms setCustoms, CodingProfile profile, Optional<PictureCheck> check) {
        return new ViewRules(
                ViewCatalogue.of(customs), SetCatalogue.of(setCustoms), customs, setCustoms, profile, check);
    }

    /** A sentence about what a person says that names nothing there is; empty if all is understood. */
    public Optional<String> wrongWord(List<Said> said) {
        try {
            Answers.of(said, views, sets);
            return Optional.empty();
        } catch (Answers.UnknownWordException e) {
            return Optional.ofNullable(e.getMessage());
        }
    }

    /** The same with a look at the pictures. */
    public ViewRules looking(PictureCheck look) {
        return new ViewRules(views, sets, customs, setCustoms, profile, Optional.of(look));
    }

    /**
     * What a view and a person's words come to. A capture nobody named is taken from how the practice says that this camera takes mirror
     * pictures, never guessed; one that somebody named and that is the way of this camera keeps the quarter turn it is held at. A picture
     * of a camera that mirrors back by itself is flipped only where somebody named the flip: a second one would exchange left and right
     * unseen (trade facts F-03, F-14, F-61).
     *
     * @param view the view
     * @param capture how the camera looked, if somebody said so
     * @param correction which flip puts it right, if somebody said so
     * @param like the view whose direction a close-up shares
     * @param teeth the teeth a person named
     * @param cameras what camera and room are called
     * @throws ContradictionException if it does not fit together
     */
    public Placement place(
            View view,
            Optional<Capture> capture,
            Optional<Correction> correction,
            Optional<View> like,
            List<Tooth> teeth,
            List<String> cameras)
            throws ContradictionException {
        Placement upright = upright(view, capture, like, teeth, cameras);
        Placement placement = corrected(upright, namedFlip(correction, upright, cameras));
        if (placement.capture() == Capture.MIRROR_FLIPPED && !customs.someCameraFlips()) {
            throw new ContradictionException(
                    "The capture says that the camera mirrored the picture back, and no camera of this practice does; "
                            + "if one does, its settings say mirror = \"in-camera\".");
        }
        if (customs.flips(cameras) && placement.capture().reversed() && correction.isEmpty()) {
            throw new ContradictionException(
                    "The capture says %s, and the settings say that this camera mirrors back by itself: look at the picture, and say the capture mirror-flipped if it is right as it is, or name the flip, correct-by %s, if it still is as seen in the mirror."
                            .formatted(
                                    placement.capture().word(),
                                    placement.correction().orElseThrow().word()));
        }
        return placement;
    }

    /**
     * What was decided comes to, without a question that was answered when it was decided. Which way the picture lies is as it was decided;
     * where that was not kept, a flip that somebody named may have led another way than settings say by now, and a person is asked.
     *
     * @throws ContradictionException if it does not fit together
     */
    public Placement decided(
            View view,
            Optional<Capture> capture,
            Laid laid,
            Optional<View> like,
            List<Tooth> teeth,
            List<String> cameras)
            throws ContradictionException {
        Placement upright = upright(view, capture, like, teeth, cameras);
        View direction = like.orElse(view);
        if (laid.orientation().isPresent()) {
            return upright.as(laid, direction);
        }
        if (laid.correction().isPresent() && Choice.mayLieOtherwise(direction)) {
            throw new ContradictionException(
                    "It was decided with the flip %s before it was kept which way the picture then lies, and settings may have that view lie otherwise by now: look at the picture, and say the flip again (correct-by), or correct-by %s."
                            .formatted(laid.correction().get().word(), Correction.USUAL));
        }
        return corrected(
                upright, capture.isEmpty() ? namedFlip(laid.correction(), upright, cameras) : laid.correction());
    }

    /**
     * How a picture that is filed is laid by a flip that a person says of it now.
     *
     * @throws ContradictionException if nobody can tell which way the picture then lies
     */
    Laid relaid(
            View view,
            Shot.Before before,
            Correction flip,
            Optional<View> like,
            List<Tooth> teeth,
            List<String> cameras)
            throws ContradictionException {
        Optional<String> today =
                upright(view, before.capture(), like, teeth, cameras).orientation();
        Laid laid = before.laid();
        if (laid.orientation().isEmpty()) {
            return new Laid(Optional.of(flip), today);
        }
        if (decided(view, before.capture(), laid, like, teeth, cameras)
                .correction()
                .equals(Optional.of(flip))) {
            return laid;
        }
        if (!laid.orientation().equals(today)) {
            throw new ContradictionException(
                    "It was filed to lie %s, and by now settings have that view lie %s, so nobody can tell to which of them the flip %s leads: say correct-by %s first, for it to lie as settings say, and the flip after that if it is not right."
                            .formatted(
                                    laid.orientation().get(), today.orElse("no way"), flip.word(), Correction.USUAL));
        }
        return new Laid(Optional.of(flip), today);
    }

    /** What view and capture come to by a camera that was held upright, a capture nobody named taken from settings. */
    Placement upright(
            View view, Optional<Capture> capture, Optional<View> like, List<Tooth> teeth, List<String> cameras)
            throws ContradictionException {
        View.Mirror mirror = like.map(View::mirror).orElse(view.mirror());
        Optional<Capture> decided = capture;
        if (capture.isEmpty() && mirror == View.Mirror.ALWAYS) {
            decided = customs.mirror(cameras).map(MirrorSetUp::capture);
        } else if (capture.equals(Optional.of(Capture.DIRECT))
                && mirror == View.Mirror.ALWAYS
                && customs.flips(cameras)) {
            decided = Optional.of(Capture.MIRROR_FLIPPED);
        } else if (capture.isEmpty() && mirror == View.Mirror.NEVER && view.insideTheMouth()) {
            decided = Optional.of(customs.direct(cameras).capture());
        }
        return Placement.of(view, decided, like, teeth, profile);
    }

    private static Placement corrected(Placement upright, Optional<Correction> flip) throws ContradictionException {
        return flip.isPresent() ? upright.with(flip.get()) : upright;
    }

    /**
     * The flip that a person named, or that the way the camera is rolled asks for in that view; empty where it follows from view and capture.
     *
     * @param upright what view and capture come to by a camera that was held upright
     */
    Optional<Correction> namedFlip(Optional<Correction> correction, Placement upright, List<String> cameras) {
        return correction.or(() -> customs.mirror(cameras)
                .filter(setUp -> setUp.capture() == upright.capture())
                .flatMap(setUp -> setUp.correction(upright)));
    }

    /** Whether the capture of that view has to be said by somebody. */
    boolean captureMissing(View view, Optional<View> like, Optional<Capture> capture, List<String> cameras) {
        View.Mirror mirror = like.map(View::mirror).orElse(view.mirror());
        return capture.isEmpty()
                && (mirror == View.Mirror.EITHER
                        || (mirror == View.Mirror.ALWAYS
                                && customs.mirror(cameras).isEmpty()));
    }

    /** Asks for the capture that is missing, with the words that can be right for the view. */
    String captureQuestion(View view, Optional<View> like, List<String> cameras) {
        boolean always = like.map(View::mirror).orElse(view.mirror()) == View.Mirror.ALWAYS;
        return "The view %s %s taken by mirror, and neither a person nor the settings say how this one was: say %s."
                .formatted(view.id(), always ? "is" : "may be", customs.captures(cameras, always));
    }
}
