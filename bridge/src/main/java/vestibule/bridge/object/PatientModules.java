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
    }
}
