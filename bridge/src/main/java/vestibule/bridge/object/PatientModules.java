package vestibule.bridge.object;

import java.time.format.DateTimeFormatter;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/** Patient module (PS3.3 C.7.1.1): who. */
final class PatientModules {

    private PatientModules() {}

    static void put(DataSet.Builder object, PhotographicObject.Material material) {
        Patient patient = material.patient();
        object.put(Attributes.PATIENT_NAME, patient.name().toString());
        object.put(Attributes.PATIENT_ID, patient.id());
        object.putIfKnown(
                Attributes.ISSUER_OF_PATIENT_ID,
                patient.issuer().or(() -> material.practice().issuer()));
        object.putOrEmpty(
                Attributes.PATIENT_BIRTH_DATE, patient.birthDate().map(DateTimeFormatter.BASIC_ISO_DATE::format));
        object.putOrEmpty(Attributes.PATIENT_SEX, patient.sex());
        if (!patient.otherIds().isEmpty()) {
            object.put(
                    Attributes.OTHER_PATIENT_I_DS_SEQUENCE,
                    patient.otherIds().stream().map(PatientModules::other).toList());
        }
    }

    private static DataSet other(Patient.OtherId other) {
        DataSet.Builder item = DataSet.builder();
        item.put(Attributes.PATIENT_ID, other.id());
        item.putIfKnown(Attributes.ISSUER_OF_PATIENT_ID, other.issuer());
        item.put(Attributes.TYPE_OF_PATIENT_ID, "TEXT");
        return item.build();
    }
}
