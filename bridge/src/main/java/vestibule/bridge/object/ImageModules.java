package vestibule.bridge.object;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.photo.Changes;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.Orientation;
import vestibule.bridge.view.Placement;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/**
 * General Image, VL Image and Acquisition Context (PS3.3 C.7.6.1, C.8.12.1, C.7.6.14): what is shown, which side, which way round.
 */
final class ImageModules {

    private ImageModules() {}

    static void put(DataSet.Builder object, PhotographicObject.Material material) {
        Placement placement = material.placement();
        object.putOrEmpty(
                Attributes.INSTANCE_NUMBER, material.visit().instanceNumber().map(String::valueOf));
        object.put(Attributes.IMAGE_TYPE, originality(material), "PRIMARY");
        putOrientation(object, Standing.orientation(material));
        object.put(Attributes.IMAGE_COMMENTS, comments(material));
        object.putIfKnown(
                Attributes.RECOGNIZABLE_VISUAL_FEATURES,
                placement.view().recognizable().map(recognizable -> recognizable ? "YES" : "NO"));
        object.putIfKnown(Attributes.IMAGE_LATERALITY, placement.laterality());
        placement.region().ifPresent(region -> putRegion(object, region, placement.modifier()));
        putCodes(object, Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, placement.structures());
        object.putEmpty(Attributes.ACQUISITION_CONTEXT_SEQUENCE);
        object.put(
                Attributes.ACQUISITION_CONTEXT_DESCRIPTION,
                "view=%s; capture=%s%s%s"
                        .formatted(
                                placement.view().id(),
                                placement.capture().word(),
                                state(material),
                                material.visit()
                                        .stage()
                                        .map(stage -> "; stage=" + stage)
                                        .orElse("")));
    }

    /**
     * A camera's JPEG is an original, lossy or not, and so is one that was laid upright without loss before it was filed. Derived is what
     * was made from another object, or got other colours (PS3.3 C.7.6.1.1.2).
     */
    private static String originality(PhotographicObject.Material material) {
        boolean derived = material.standing() instanceof Standing.Corrected
                || material.standing() instanceof Standing.Copy
                || !material.picture().changes().loss().isNone()
                || material.picture().changes().coding() == Changes.Coding.INKS;
        return derived ? "DERIVED" : "ORIGINAL";
    }

    /** For people: nobody may take a picture as recorded for a finished one, not even where a list cuts the text short. */
    private static String comments(PhotographicObject.Material material) {
        String label = material.placement().view().label()
                + material.visit().stage().map(stage -> "; stage: " + stage).orElse("");
        if (!(material.standing() instanceof Standing.Recorded)) {
            return label;
        }
        return material.placement().capture().reversed()
                ? "UNCORRECTED, as seen in the mirror: " + label
                : "UNCORRECTED, as the turned camera recorded it: " + label;
    }

    /** For programs: which of the two pictures this is, and by which transform it was put right. */
    private static String state(PhotographicObject.Material material) {
        if (material.standing() instanceof Standing.Recorded) {
            return "; picture=uncorrected";
        }
        if (material.standing() instanceof Standing.Copy) {
            return "; picture=copy";
        }
        if (material.placement().capture() == Capture.MIRROR_FLIPPED) {
            return "; picture=corrected; correction=in-camera";
        }
        return material.placement()
                .correction()
                .map(correction -> "; picture=corrected; correction=" + correction.word())
                .orElse("");
    }

    /** Type 2C, and the condition holds for this object: present, empty where nobody said it (PS3.3 C.7.6.1.1.1). */
    private static void putOrientation(DataSet.Builder object, Optional<Orientation> orientation) {
        if (orientation.isPresent()) {
            object.put(
                    Attributes.PATIENT_ORIENTATION,
                    orientation.get().rows(),
                    orientation.get().columns());
        } else {
            object.putEmpty(Attributes.PATIENT_ORIENTATION);
        }
    }

    private static void putRegion(DataSet.Builder object, Code region, Optional<Code> side) {
        DataSet.Builder item = item(region);
        side.ifPresent(code -> item.put(
                Attributes.ANATOMIC_REGION_MODIFIER_SEQUENCE, List.of(item(code).build())));
        object.put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(item.build()));
    }

    static void putCodes(DataSet.Builder object, Attribute sequence, List<Code> codes) {
        if (!codes.isEmpty()) {
            object.put(sequence, codes.stream().map(code -> item(code).build()).toList());
        }
    }

    /** Code Sequence macro (PS3.3 Table 8.8-1). */
    static DataSet.Builder item(Code code) {
        return DataSet.builder()
                .put(Attributes.CODE_VALUE, code.value())
                .put(Attributes.CODING_SCHEME_DESIGNATOR, code.scheme())
                .put(Attributes.CODE_MEANING, code.meaning());
    }
}
