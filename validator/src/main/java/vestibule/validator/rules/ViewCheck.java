package vestibule.validator.rules;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** Whether view, capture and correction, where an object states them, agree with one another, with the direction and with the side. */
final class ViewCheck implements Check {

    private static final Rule MIRRORED = Rule.of(
            "PHO-022",
            Severity.ERROR,
            "PS3.3 C.7.6.1.1.1",
            "A finished photograph looks at the patient from where its view is seen.",
            "the view {view} looks towards {look}, and PatientOrientation \"{value}\" is a mirror image of it",
            "Look at the picture: either left and right are exchanged, or view or direction are wrong. Do not use it until that is known.");
    private static final Rule TURNED = Rule.of(
                    "PHO-023",
                    Severity.WARNING,
                    "House views",
                    "A finished photograph lies as its view is shown.",
                    "the view {view} lies \"{usual}\", and PatientOrientation is \"{value}\"",
                    "See whether the picture was not turned upright, or was turned and the direction left as it was.")
            .asJudgement();
    private static final Rule TAKEN = Rule.of(
            "PHO-024",
            Severity.ERROR,
            "House views",
            "How a photograph was taken and what put it right fit its view.",
            "AcquisitionContextDescription says that {problem}",
            "Find out how it was taken: a picture by mirror that was only turned still shows right and left exchanged.");
    private static final Rule SIDE = Rule.of(
            "PHO-025",
            Severity.ERROR,
            "PS3.3 C.8.12.1",
            "Image Laterality, where it names a side or both, names what the view shows.",
            "the view {view} shows {side}, and ImageLaterality is {found}",
            "Find out which side is shown; a wrong side can lead to a wrong treatment.");

    /** The one view with a direction of its own that shows teeth of any side. */
    private static final String OF_TEETH = "shade-tab";

    private static final Set<String> DIRECT = Set.of("direct", "direct-behind");
    private static final Set<String> REVERSED = Set.of("mirror-front", "mirror-behind");
    private static final String IN_CAMERA = "mirror-flipped";
    private static final Set<String> TURNS = Set.of("turn-90", "turn-180", "turn-270");
    private static final Set<String> MIRROR_IMAGES =
            Set.of("flip-horizontal", "flip-vertical", "transpose", "transverse");

    @Override
    public List<Rule> rules() {
        return List.of(MIRRORED, TURNED, TAKEN, SIDE);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (!subject.isPhotograph()) {
            return;
        }
        DataSet dataSet = subject.dataSet();
        Taking taking = Taking.of(dataSet);
        Optional<ViewTable.View> view = taking.view().flatMap(ViewTable.standard()::find);
        if (view.isPresent()) {
            checkDirection(dataSet, view.get(), taking, findings);
            problem(view.get(), taking)
                    .ifPresent(problem -> findings.report(
                            TAKEN, Location.of(Attributes.ACQUISITION_CONTEXT_DESCRIPTION), "problem", problem));
            checkSide(dataSet, view.get(), findings);
        }
    }

    /** A picture as recorded lies as the camera was held, and may be reversed. */
    private static void checkDirection(DataSet dataSet, ViewTable.View view, Taking taking, Findings findings) {
        List<String> own = dataSet.texts(Attributes.PATIENT_ORIENTATION);
        if (!view.hasDirection() || taking.isUncorrected() || !Facing.isUsable(own)) {
            return;
        }
        Location where = Location.of(Attributes.PATIENT_ORIENTATION);
        String value = String.join("\\", own);
        if (!Facing.looks(own, view.look())) {
            findings.report(MIRRORED, where, "view", view.id(), "look", view.look(), "value", value);
        } else if (!lies(own, view)) {
            findings.report(
                    TURNED, where, "view", view.id(), "usual", view.accepted().get(0), "value", value);
        }
    }

    /** Pictures along the axis of the body have no upright of their own: practices show them either way round. */
    private static boolean lies(List<String> own, ViewTable.View view) {
        boolean alongBody = "HF".indexOf(view.look().charAt(0)) >= 0;
        return view.accepted().stream()
                .map(accepted -> List.of(accepted.split("\\\\", -1)))
                .anyMatch(accepted ->
                        Facing.same(own, accepted) || (alongBody && Facing.same(own, Facing.halfTurned(accepted))));
    }

    private static Optional<String> problem(ViewTable.View view, Taking taking) {
        if (taking.capture().isEmpty()) {
            return Optional.empty();
        }
        String capture = taking.capture().get();
        boolean direct = DIRECT.contains(capture);
        if (!direct && !REVERSED.contains(capture) && !capture.equals(IN_CAMERA)) {
            return Optional.of("the capture is \"" + capture + "\", which is none that it may be");
        }
        if (view.taken().equals(direct ? "mirror" : "direct")) {
            return Optional.of("the capture is " + capture + ", and the view " + view.id() + " is taken "
                    + (direct ? "by mirror" : "directly"));
        }
        return taking.isUncorrected() || taking.isCopy()
                ? Optional.empty()
                : correctionProblem(capture, taking.correction());
    }

    private static Optional<String> correctionProblem(String capture, Optional<String> correction) {
        String said = correction.orElse("nothing");
        boolean fits;
        if (REVERSED.contains(capture)) {
            fits = MIRROR_IMAGES.contains(said);
        } else if (capture.equals(IN_CAMERA)) {
            fits = said.equals("in-camera");
        } else {
            fits = TURNS.contains(said) || (correction.isEmpty() && capture.equals("direct"));
        }
        return fits
                ? Optional.empty()
                : Optional.of("the capture is " + capture + " and that " + said + " put the picture right, which "
                        + expected(capture));
    }

    private static String expected(String capture) {
        if (REVERSED.contains(capture)) {
            return "takes a mirror image: flip-horizontal, flip-vertical, transpose or transverse";
        }
        return capture.equals(IN_CAMERA) ? "is done in-camera" : "takes a turn: turn-90, turn-180 or turn-270";
    }

    /**
     * U may be said of any view, as practices code. Beside it stands the side of a view of one side, and B of all others. What a view shows that
     * shares the direction of another, or one of single teeth, is as its teeth are: {@link SideCheck} compares those.
     */
    private static void checkSide(DataSet dataSet, ViewTable.View view, Findings findings) {
        String found = dataSet.text(Attributes.IMAGE_LATERALITY).orElse("");
        // a value of no list is said to be one by the module tables
        if (!view.hasDirection()
                || view.id().equals(OF_TEETH)
                || !Set.of("R", "L", "B").contains(found)) {
            return;
        }
        String shown = view.shownSide();
        if (!found.equals(shown.isEmpty() ? "B" : shown)) {
            findings.report(
                    SIDE,
                    Location.of(Attributes.IMAGE_LATERALITY),
                    "view",
                    view.id(),
                    "side",
                    shown.isEmpty() ? "no single side" : "side " + shown,
                    "found",
                    found);
        }
    }
}
