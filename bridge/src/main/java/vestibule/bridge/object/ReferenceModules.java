package vestibule.bridge.object;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.photo.Changes;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.Orientation;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;

/** General Reference (PS3.3 C.12.4): what was done to the picture, and the image it was made from. */
final class ReferenceModules {

    /** PS3.16 CID 7202. */
    private static final Code SOURCE = new Code("121322", "DCM", "Source image for image processing operation");

    private static final String IN_CAMERA =
            "Taken by mirror; mirrored back by the camera before it wrote the file, as the practice's settings say; not flipped again.";

    private ReferenceModules() {}

    static void put(DataSet.Builder object, PhotographicObject.Material material) {
        Changes changes = material.picture().changes();
        String words = changes.any() ? changes.words() : "";
        if (material.placement().capture() == Capture.MIRROR_FLIPPED) {
            words = (IN_CAMERA + " " + words).strip();
        }
        if (material.standing() instanceof Standing.Copy copy) {
            words = (copy.words() + " " + words).strip();
            object.put(
                    Attributes.SOURCE_IMAGE_SEQUENCE,
                    List.of(source(copy.sourceClass(), copy.source()).build()));
        }
        if (material.standing() instanceof Standing.Corrected corrected) {
            DataSet.Builder item = source(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, corrected.recorded());
            if (onlyReoriented(changes)) {
                putReoriented(item, Standing.recordedOrientation(material));
            }
            object.put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(item.build()));
        }
        if (!words.isEmpty()) {
            object.put(Attributes.DERIVATION_DESCRIPTION, words);
        }
    }

    /** Rows or columns that were left off are more than a flip. */
    private static boolean onlyReoriented(Changes changes) {
        return changes.loss().isNone() && changes.coding() != Changes.Coding.INKS;
    }

    /** Required together, so neither is there where nobody knows how the picture lies (PS3.3 Table C.12-10). */
    private static void putReoriented(DataSet.Builder item, Optional<Orientation> recorded) {
        recorded.ifPresent(orientation -> item.put(Attributes.SPATIAL_LOCATIONS_PRESERVED, "REORIENTED_ONLY")
                .put(Attributes.PATIENT_ORIENTATION, orientation.rows(), orientation.columns()));
    }

    private static DataSet.Builder source(Uid sopClass, Uid instance) {
        return DataSet.builder()
                .put(Attributes.REFERENCED_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.REFERENCED_SOP_INSTANCE_UID, instance.value())
                .put(
                        Attributes.PURPOSE_OF_REFERENCE_CODE_SEQUENCE,
                        List.of(ImageModules.item(SOURCE).build()));
    }
}
