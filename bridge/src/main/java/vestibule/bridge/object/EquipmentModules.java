package vestibule.bridge.object;

import java.util.Optional;
import vestibule.bridge.photo.CameraNotes;
import vestibule.bridge.settings.Practice;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;

/**
 * General Equipment (PS3.3 C.7.5.1), VL Photographic Equipment and Acquisition (C.8.12.10, C.8.12.11): the camera, its settings, and
 * where it stands.
 */
final class EquipmentModules {

    private EquipmentModules() {}

    static void put(DataSet.Builder object, PhotographicObject.Material material) {
        CameraNotes camera = material.photo().camera();
        Practice practice = material.practice();
        object.putOrEmpty(Attributes.MANUFACTURER, fitting(camera.maker()));
        object.putIfKnown(Attributes.MANUFACTURER_MODEL_NAME, fitting(camera.model()));
        object.putIfKnown(Attributes.SOFTWARE_VERSIONS, fitting(camera.software()));
        object.putIfKnown(Attributes.INSTITUTION_NAME, practice.institution());
        object.putIfKnown(Attributes.INSTITUTIONAL_DEPARTMENT_NAME, practice.department());
        object.putIfKnown(Attributes.STATION_NAME, practice.station());
        object.putAll(camera.exposure());
    }

    /** What a camera wrote of itself and LO does not take stays out; all of these may be absent or empty. */
    private static Optional<String> fitting(Optional<String> text) {
        return text.filter(value -> TextForm.problem(VR.LO, value).isEmpty());
    }
}
