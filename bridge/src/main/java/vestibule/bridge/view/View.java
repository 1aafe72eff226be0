package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Code;

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
 * @param recognizable whether the person can be recognised (PS3.3 C.7.6.1, Recognizable Visual Features)
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
        boolean recognizable,
        Recorded front,
        Recorded behind,
        Coding dental,
        Coding ortho,
        List<String> directions,
        List<String> teethToOffer) {

    public View {
        accepted = List.copyOf(accepted);
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
     * @param transform what puts it right, in the words of the catalogue
     */
    public record Recorded(Optional<String> orientation, String transform) {}

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

    /** How the view is coded in that profile. */
    public Coding coding(CodingProfile profile) {
        return switch (profile) {
            case DENTAL -> dental;
            case ORTHO -> ortho;
        };
    }

    /** Whether the view shows something on the bench rather than the patient; such a picture is never mirrored. */
    public boolean onTheBench() {
        return group.equals("cast") || mode == Mode.NONE;
    }
}
