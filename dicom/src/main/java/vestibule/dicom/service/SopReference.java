package vestibule.dicom.service;

import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFormatException;

/**
 * Names one object by class and instance (PS3.3 10.8).
 *
 * @param sopClass its SOP class
 * @param sopInstance its SOP instance
 */
public record SopReference(Uid sopClass, Uid sopInstance) {

    /** The item of a sequence that names it. */
    public DataSet toItem() {
        return DataSet.builder()
                .put(Attributes.REFERENCED_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.REFERENCED_SOP_INSTANCE_UID, sopInstance.value())
                .build();
    }

    /** @throws DicomFormatException if class or instance is missing or no unique identifier */
    static SopReference of(DataSet item) throws DicomFormatException {
        return new SopReference(
                item.text(Attributes.REFERENCED_SOP_CLASS_UID)
                        .flatMap(Uid::parse)
                        .orElseThrow(() -> new DicomFormatException(
                                "an item without a well-formed " + Attributes.REFERENCED_SOP_CLASS_UID)),
                item.text(Attributes.REFERENCED_SOP_INSTANCE_UID)
                        .flatMap(Uid::parse)
                        .orElseThrow(() -> new DicomFormatException(
                                "an item without a well-formed " + Attributes.REFERENCED_SOP_INSTANCE_UID)));
    }
}
