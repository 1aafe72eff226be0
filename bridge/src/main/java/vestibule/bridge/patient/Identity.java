package vestibule.bridge.patient;

import java.time.LocalDate;
import java.util.Optional;
import vestibule.dicom.data.PersonName;

/**
 * What one piece of evidence says of a person; it may be little.
 *
 * @param id the patient id
 * @param issuer who gave it
 * @param name the name
 * @param birthDate the day of birth
 * @param sex M, F or O
 */
public record Identity(
        Optional<String> id,
        Optional<String> issuer,
        Optional<PersonName> name,
        Optional<LocalDate> birthDate,
        Optional<String> sex) {

    /** Nothing is said. */
    public static final Identity UNSAID =
            new Identity(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

    /** Only an id. */
    public static Identity ofId(String id) {
        return new Identity(Optional.of(id), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** All that is known of a patient. */
    public static Identity of(Patient patient) {
        return new Identity(
                Optional.of(patient.id()),
                patient.issuer(),
                Optional.of(patient.name()).filter(name -> !name.isEmpty()),
                patient.birthDate(),
                patient.sex());
    }

    /** Nothing of the person; it does not belong in logs. */
    @Override
    public String toString() {
        return "identity";
    }
}
