package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Code;
import vestibule.dicom.jpeg.Turn;

/**
 * What a photograph shows and how, from the catalogue.
 *
 * @param id the name commands use, as {@code teeth-front-occlusion}
 * @param group the kind of view, as {@code facial}
 * @param name the name in words
 * @param label a short name for lists and for the object
 * @param mirror whether the view is taken by mirror always, never, or either way
 * @param mode where its direction comes from
 * @param orientation Patient Orientation of the finished picture, rows then columns, parted by a backslash; empty where the view has none
 * @param accepted values of Patient Orientation that are right for the finished picture
 * @param look where the camera, or the reflected camera, looks in the patient; empty where the view has no direction
 * @param frames how the frame may lie, the usual way first
 * @param recognizable whether the person can be recognised (PS3.3 C.7.6.1, Recognizable Visual Features); empty where a practice leaves
 *     the flag out
 * @param front what the camera records when the operator stands in front
 * @param behind what the camera records when the operator stands behind the head
 * @param dental coding beside intra-oral radiographs
 * @param ortho coding of orthodontic records
 * @param directions the views whose direction a close-up or a stage of treatment may share
 * @param teethToOffer the teeth such a view usually shows; never taken for granted
 */
public record View(
        String id,
        String group,
        String name,
        String label,
        Mirror mirror,
        Mode mode,
        Optional<String> orientation,
        List<String> accepted,
        Optional<String> look,
        List<Frame> frames,
        Optional<Boolean> recognizable,
        Recorded front,
        Recorded behind,
        Coding dental,
        Coding ortho,
        List<String> directions,
        List<String> teethToOffer) {

    public View {
        accepted = List.copyOf(accepted);
        frames = List.copyOf(frames);
        directions = List.copyOf(directions);
        teethToOffer = List.copyOf(teethToOffer);
    }

    /** Whether a mirror is used. */
    public enum Mirror {
        NEVER,
        ALWAYS,
        EITHER
    }

    /** Where the direction of the finished picture comes from. */
    public enum Mode {
        /** The view has one. */
        FIXED,
        /** It shares that of another view, which a person names. */
        INHERITED,
        /** It has none, as a crown on the bench. */
        NONE
    }

    /**
     * What the camera records in one of the two usual set-ups.
     *
     * @param orientation Patient Orientation of the picture as recorded; empty where there is none
     * @param putRight what puts it right
     */
    public record Recorded(Optional<String> orientation, Turn putRight) {

        private Recorded towards(String finished) {
            Turn turn = Orientation.parse(orientation.orElseThrow())
                    .orElseThrow()
                    .turnTo(Orientation.parse(finished).orElseThrow())
                    .orElseThrow(() -> new IllegalStateException("no turn leads to " + finished));
            return new Recorded(orientation, turn);
        }
    }

    /**
     * How the view is coded in one profile.
     *
     * @param region Anatomic Region Sequence (0008,2218)
     * @param modifier Anatomic Region Modifier Sequence (0008,2220)
     * @param laterality Image Laterality (0020,0062): R, L, U or B
     * @param structures Primary Anatomic Structure Sequence (0008,2228)
     */
    public record Coding(
            Optional<Code> region, Optional<Code> modifier, Optional<String> laterality, List<Code> structures) {
        public Coding {
            structures = List.copyOf(structures);
        }
    }

    /** The side of the patient it shows, R or L, however the practice codes it; empty where it shows both or none. */
    public Optional<String> side() {
        Optional<String> byCode = dental.modifier().flatMap(code -> switch (code.value()) {
            case "24028007" -> Optional.of("R");
            case "7771000" -> Optional.of("L");
            default -> Optional.empty();
        });
        return byCode.or(() -> dental.laterality().filter(side -> side.equals("R") || side.equals("L")));
    }

    /** The usual way its frame lies. */
    public Frame frame() {
        return frames.get(0);
    }

    /** The same under another label. */
    View labelled(String other) {
        return copy(other, frames, recognizable, orientation, accepted, front, behind, dental);
    }

    /** The same with its frame lying so. */
    View framed(List<Frame> others) {
        return copy(label, others, recognizable, orientation, accepted, front, behind, dental);
    }

    /** The same without a word on whether the person can be recognised. */
    View unflagged() {
        return copy(label, frames, Optional.empty(), orientation, accepted, front, behind, dental);
    }

    /** The same coded otherwise beside intra-oral radiographs. */
    View coded(Coding other) {
        return copy(label, frames, recognizable, orientation, accepted, front, behind, other);
    }

    /** The same with the finished picture lying otherwise; what puts a picture right follows from what the camera records. */
    View lying(String other) {
        return copy(
                label,
                frames,
                recognizable,
                Optional.of(other),
                List.of(other),
                front.towards(other),
                behind.towards(other),
                dental);
    }

    /** The same with coarser letters for the finished picture; it lies as it did, so nothing else puts it right. */
    View lyingAbout(String other) {
        return copy(label, frames, recognizable, Optional.of(other), List.of(other), front, behind, dental);
    }

    private View copy(
            String newLabel,
            List<Frame> newFrames,
            Optional<Boolean> newRecognizable,
            Optional<String> newOrientation,
            List<String> newAccepted,
            Recorded newFront,
            Recorded newBehind,
            Coding newDental) {
        return new View(
                id,
                group,
                name,
                newLabel,
                mirror,
                mode,
                newOrientation,
                newAccepted,
                look,
                newFrames,
                newRecognizable,
                newFront,
                newBehind,
                newDental,
                ortho,
                directions,
                teethToOffer);
    }

    /** How the view is coded in that profile. */
    public Coding coding(CodingProfile profile) {
        return switch (profile) {
            case DENTAL -> dental;
            case ORTHO -> ortho;
        };
    }

    /** Whether it is taken inside the mouth, where an operator behind the head has the camera upside down to the patient. */
    boolean insideTheMouth() {
        return mode == Mode.INHERITED || group.startsWith("intraoral") || group.equals("shade");
    }

    /** Whether the view shows something on the bench rather than the patient; such a picture is never mirrored. */
    public boolean onTheBench() {
        return group.equals("cast") || mode == Mode.NONE;
    }
}
