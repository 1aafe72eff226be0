package vestibule.bridge.view;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Code;

/**
 * What practices do in two ways. Each constant stands for the less usual one; a practice that says nothing has the usual one. The points
 * are those of the trade facts, section 9.
 */
public enum Choice {
    LOWER_INCISORS_AT_TOP("D-1", "lower-occlusal", "incisors-at-bottom", "incisors-at-top"),
    UPPER_INCISORS_AT_BOTTOM("D-2", "upper-occlusal", "incisors-at-top", "incisors-at-bottom"),
    /** Nobody flips or turns a cast: the key says how casts are photographed. */
    LOWER_CAST_INCISORS_AT_TOP("D-1", "lower-cast", "incisors-at-bottom", "incisors-at-top"),
    UPPER_CAST_INCISORS_AT_BOTTOM("D-2", "upper-cast", "incisors-at-top", "incisors-at-bottom"),
    INNER_FRONT_FLIPPED("D-4", "inner-front", "as-occlusal", "flipped-left-right"),
    THREE_QUARTER_AS_SIDE("D-5", "three-quarter", "between", "as-side"),
    SIDES_UNPAIRED("D-6", "side-views", "paired", "unpaired"),
    REGION_FACE("D-7", "face-region", "head-and-neck", "face"),
    FACES_LANDSCAPE("D-10", "face-frame", "portrait", "landscape"),
    INSIDE_UNFLAGGED("D-13", "recognizable-inside", "no", "left-out");

    private static final Code FACE = new Code("89545001", "SCT", "Face");
    private static final String HEAD_AND_NECK = "774007";

    private final String point;
    private final String key;
    private final String usual;
    private final String other;

    Choice(String point, String key, String usual, String other) {
        this.point = point;
        this.key = key;
        this.usual = usual;
        this.other = other;
    }

    /** The number of the disputed point. */
    public String point() {
        return point;
    }

    /** Its key in settings. */
    public String key() {
        return key;
    }

    /** The word for the usual way. */
    public String usual() {
        return usual;
    }

    /** The word for the other way. */
    public String other() {
        return other;
    }

    /** The view as a practice that chose this has it. */
    View applied(View view) {
        return switch (this) {
            case LOWER_INCISORS_AT_TOP -> lying(view, "occlusal-mandibular-mirror", "R\\P");
            case UPPER_INCISORS_AT_BOTTOM -> lying(view, "occlusal-maxillary-mirror", "R\\A");
            case LOWER_CAST_INCISORS_AT_TOP -> lying(view, "cast-occlusal-mandibular", "R\\P");
            case UPPER_CAST_INCISORS_AT_BOTTOM -> lying(view, "cast-occlusal-maxillary", "R\\A");
            case INNER_FRONT_FLIPPED ->
                lying(lying(view, "palatal-maxillary-anterior", "R\\FA"), "lingual-mandibular-anterior", "R\\FP");
            case THREE_QUARTER_AS_SIDE -> asSide(view);
            case SIDES_UNPAIRED -> unpaired(view);
            case REGION_FACE -> regionFace(view);
            case FACES_LANDSCAPE ->
                view.group().equals("facial") ? view.framed(List.of(Frame.LANDSCAPE, Frame.PORTRAIT)) : view;
            case INSIDE_UNFLAGGED -> view.recognizable().equals(Optional.of(false)) ? view.unflagged() : view;
        };
    }

    /** Whether some choice has the finished picture of a view lie otherwise than the catalogue does. */
    static boolean mayLieOtherwise(View view) {
        View usual = ViewCatalogue.standard().view(view.id()).orElse(view);
        return Arrays.stream(values())
                .anyMatch(choice -> !choice.applied(usual).front().equals(usual.front()));
    }

    private static View lying(View view, String id, String orientation) {
        return view.id().equals(id) ? view.lying(orientation) : view;
    }

    /** A\F rather than LA\F: the letters of a true side view, the angle stands in the label. */
    private static View asSide(View view) {
        return view.orientation()
                .flatMap(Orientation::parse)
                .filter(orientation -> orientation.rows().matches("L[AP]"))
                .map(orientation -> view.lyingAbout(orientation.rows().substring(1) + "\\" + orientation.columns()))
                .orElse(view);
    }

    private static View unpaired(View view) {
        View.Coding coding = view.dental();
        return coding.laterality().isEmpty()
                ? view
                : view.coded(
                        new View.Coding(coding.region(), coding.modifier(), Optional.of("U"), coding.structures()));
    }

    /** The region face makes the structure face needless. */
    private static View regionFace(View view) {
        View.Coding coding = view.dental();
        boolean head = coding.region()
                .map(region -> region.value().equals(HEAD_AND_NECK))
                .orElse(false);
        return head
                ? view.coded(new View.Coding(
                        Optional.of(FACE),
                        coding.modifier(),
                        coding.laterality(),
                        coding.structures().stream()
                                .filter(structure -> !structure.sameConcept(FACE))
                                .toList()))
                : view;
    }
}
