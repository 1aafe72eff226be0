package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import vestibule.dicom.data.Code;
import vestibule.dicom.jpeg.Turn;

/**
 * What a decision about the view comes to in the object: where on the body, which side, which way round.
 *
 * @param view the view
 * @param capture how the camera looked
 * @param correction what puts the picture right: a mirror image exactly if it is laterally reversed as recorded, else a turn or nothing
 * @param orientation Patient Orientation of the finished picture; empty where no one has said it
 * @param region where on the body
 * @param modifier the side of the region, as a code
 * @param laterality Image Laterality: R, L, U or B
 * @param structures what is shown, teeth first if a person named them
 * @param teeth the teeth a person named
 */
public record Placement(
        View view,
        Capture capture,
        Optional<Correction> correction,
        Optional<String> orientation,
        Optional<Code> region,
        Optional<Code> modifier,
        Optional<String> laterality,
        List<Code> structures,
        List<Tooth> teeth) {

    public Placement {
        structures = List.copyOf(structures);
        teeth = List.copyOf(teeth);
        if (correction.map(Correction::mirrors).orElse(false) != capture.reversed()) {
            throw new IllegalArgumentException(
                    "a mirror image belongs to a reversed picture, and a reversed picture to one");
        }
    }

    /** What leads from the picture as it lies upright by the camera's own note to the finished one. */
    public Turn putRight() {
        return correction.map(Correction::turn).orElse(Turn.NONE);
    }

    /** The same with another correction than the usual set-ups have, for a camera that was rolled. */
    public Placement with(Correction other) throws ContradictionException {
        if (other.mirrors() != capture.reversed()) {
            throw new ContradictionException((capture.reversed()
                            ? "A picture by mirror is reversed, and no turn (%s) puts it right, but the capture says %s: one of the two is wrong."
                            : "A picture that is not reversed is never mirrored (%s), and the capture says %s: one of the two is wrong.")
                    .formatted(other.word(), capture.word()));
        }
        return new Placement(
                view, capture, Optional.of(other), orientation, region, modifier, laterality, structures, teeth);
    }

    /**
     * The same picture as it was decided to lie, whatever settings say of directions by now.
     *
     * @param direction the view whose direction it has
     * @param laid with an orientation
     */
    Placement as(Laid laid, View direction) throws ContradictionException {
        String lies = laid.orientation().orElseThrow();
        Optional<Correction> flip = laid.correction().isEmpty() && capture.reversed()
                ? Optional.of(flip(capture == Capture.MIRROR_FRONT ? direction.front() : direction.behind(), lies))
                : laid.correction().or(() -> correction);
        Placement same = new Placement(
                view, capture, correction, Optional.of(lies), region, modifier, laterality, structures, teeth);
        return flip.isPresent() ? same.with(flip.get()) : same;
    }

    private static Correction flip(View.Recorded recorded, String lies) throws ContradictionException {
        return recorded.orientation()
                .flatMap(Orientation::parse)
                .flatMap(raw -> Orientation.parse(lies).flatMap(raw::turnTo))
                .flatMap(Correction::of)
                .filter(Correction::mirrors)
                .orElseThrow(() -> new ContradictionException(
                        "It was decided to lie %s, and no flip of what the camera records leads to that: say the capture or the flip (correct-by) anew."
                                .formatted(lies)));
    }

    /**
     * Works the placement out, or says what contradicts what.
     *
     * @param view the view that is shown
     * @param capture how the camera looked; a mirror view needs it said
     * @param like for a close-up or a stage of treatment: the view whose direction it shares
     * @param teeth the teeth a person named
     * @param profile which codes the practice uses
     */
    public static Placement of(
            View view, Optional<Capture> capture, Optional<View> like, List<Tooth> teeth, CodingProfile profile)
            throws ContradictionException {
        Capture decided = capture(view, capture, like);
        checkLike(view, like);
        View direction = like.orElse(view);
        View.Coding coding = direction.coding(profile);
        checkTeeth(direction, coding, teeth);
        return new Placement(
                view,
                decided,
                correction(direction, decided),
                view.mode() == View.Mode.INHERITED && like.isEmpty() ? Optional.empty() : direction.orientation(),
                coding.region(),
                coding.modifier(),
                laterality(view, like, coding, teeth, profile),
                structures(view.coding(profile), teeth),
                teeth);
    }

    private static Capture capture(View view, Optional<Capture> capture, Optional<View> like)
            throws ContradictionException {
        View.Mirror mirror = like.map(View::mirror).orElse(view.mirror());
        if (capture.isEmpty()) {
            if (mirror == View.Mirror.NEVER) {
                return Capture.DIRECT;
            }
            boolean always = mirror == View.Mirror.ALWAYS;
            throw new ContradictionException("The view %s %s taken by mirror, and nobody said how it was: say %s."
                    .formatted(
                            view.id(),
                            always ? "is" : "may be",
                            Capture.allWords(always ? Capture.MIRROR_WORDS : Capture.WORDS)));
        }
        if (capture.get().byMirror() && view.onTheBench()) {
            throw new ContradictionException(
                    "The view %s shows something on the bench, which is never taken by mirror.".formatted(view.id()));
        }
        if (capture.get().byMirror() && view.mode() == View.Mode.INHERITED && like.isEmpty()) {
            throw new ContradictionException(
                    "The view %s was taken by mirror, and which flip puts it right depends on the view it is like: name %s."
                            .formatted(view.id(), mayShare(view)));
        }
        if (capture.get().byMirror() && mirror == View.Mirror.NEVER) {
            throw new ContradictionException(
                    "The view %s is taken directly, and the capture says %s: one of the two is wrong."
                            .formatted(view.id(), capture.get().word()));
        }
        if (!capture.get().byMirror() && mirror == View.Mirror.ALWAYS) {
            throw new ContradictionException(
                    "The view %s is taken by mirror, and the capture says %s: one of the two is wrong."
                            .formatted(view.id(), capture.get().word()));
        }
        return capture.get();
    }

    /** What the catalogue's raw set-up asks for: the operator in front, or behind the head. */
    private static Optional<Correction> correction(View direction, Capture capture) {
        return switch (capture) {
            case DIRECT, MIRROR_FLIPPED -> Optional.empty();
            // A view that may be taken either way has its direct raw letters in the catalogue, and half a turn is half
            // a turn
            case DIRECT_BEHIND -> Optional.of(Correction.TURN_180);
            case MIRROR_FRONT -> Optional.of(corrected(direction.front()));
            case MIRROR_BEHIND -> Optional.of(corrected(direction.behind()));
        };
    }

    private static Correction corrected(View.Recorded recorded) {
        return Correction.of(recorded.putRight())
                .filter(Correction::mirrors)
                .orElseThrow(() -> new IllegalStateException("the catalogue puts a mirror view right by a turn"));
    }

    private static void checkLike(View view, Optional<View> like) throws ContradictionException {
        if (like.isPresent() && view.mode() != View.Mode.INHERITED) {
            throw new ContradictionException("The view %s has a direction of its own and takes none from %s."
                    .formatted(view.id(), like.get().id()));
        }
        if (like.isPresent() && !mayShare(view, like.get())) {
            throw new ContradictionException("The view %s does not share its direction with %s; it may with %s."
                    .formatted(view.id(), like.get().id(), mayShare(view)));
        }
    }

    /** A view of which the catalogue names no others may lie like any that shows the patient, as a lesion anywhere in the mouth. */
    private static boolean mayShare(View view, View like) {
        return view.directions().isEmpty()
                ? like.mode() == View.Mode.FIXED && !like.onTheBench()
                : view.directions().contains(like.id());
    }

    private static String mayShare(View view) {
        return view.directions().isEmpty()
                ? "any view of the patient that has one of its own"
                : "one of " + String.join(", ", view.directions());
    }

    private static void checkTeeth(View direction, View.Coding coding, List<Tooth> teeth)
            throws ContradictionException {
        boolean upperOnly = only(coding, "70925003") || onlyArch(direction, "39481002");
        boolean lowerOnly = only(coding, "91609006") || onlyArch(direction, "88176008");
        String side = direction.side().orElse("");
        for (Tooth tooth : teeth) {
            if ((upperOnly && !tooth.upper()) || (lowerOnly && tooth.upper())) {
                throw new ContradictionException("The view %s shows the %s arch, and tooth %s stands in the other one."
                        .formatted(direction.id(), upperOnly ? "upper" : "lower", tooth.words()));
            }
            if ((side.equals("R") && !tooth.right()) || (side.equals("L") && tooth.right())) {
                throw new ContradictionException(
                        "The view %s shows the patient's %s side, and tooth %s stands on the other."
                                .formatted(direction.id(), side.equals("R") ? "right" : "left", tooth.words()));
            }
        }
    }

    private static boolean only(View.Coding coding, String code) {
        return coding.region().map(region -> region.value().equals(code)).orElse(false);
    }

    private static boolean onlyArch(View view, String code) {
        List<Code> structures = view.dental().structures();
        return structures.size() == 1 && structures.get(0).value().equals(code);
    }

    /**
     * The side of a close-up follows its teeth; teeth of both sides, or none named, leave it as the view has it (PS3.3 C.8.11.9 uses B for
     * both).
     */
    private static Optional<String> laterality(
            View view, Optional<View> like, View.Coding coding, List<Tooth> teeth, CodingProfile profile) {
        if (profile == CodingProfile.ORTHO
                || teeth.isEmpty()
                || !coding.laterality().equals(Optional.of("B"))) {
            boolean unsaid = view.mode() == View.Mode.INHERITED && like.isEmpty() && teeth.isEmpty();
            return unsaid ? Optional.empty() : coding.laterality();
        }
        boolean closeUp = view.mode() == View.Mode.INHERITED || view.group().equals("shade");
        boolean allRight = teeth.stream().allMatch(Tooth::right);
        boolean allLeft = teeth.stream().noneMatch(Tooth::right);
        if (!closeUp || (!allRight && !allLeft)) {
            return coding.laterality();
        }
        return Optional.of(allRight ? "R" : "L");
    }

    private static List<Code> structures(View.Coding coding, List<Tooth> teeth) {
        return teeth.isEmpty()
                ? coding.structures()
                : teeth.stream().map(Tooth::code).collect(Collectors.toList());
    }
}
