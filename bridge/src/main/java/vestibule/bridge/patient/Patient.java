package vestibule.bridge.patient;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.PersonName;

/**
 * Who is on a photograph, as the practice or its archive knows the person (PS3.3 C.7.1.1).
 *
 * @param id Patient ID (0010,0020)
 * @param issuer who gave the id (0010,0021); ids of two issuers may be alike
 * @param name Patient's Name (0010,0010)
 * @param birthDate Patient's Birth Date (0010,0030)
 * @param sex Patient's Sex (0010,0040): M, F or O
 * @param otherIds what others call the person (Other Patient IDs Sequence, 0010,1002)
 */
public record Patient(
        String id,
        Optional<String> issuer,
        PersonName name,
        Optional<LocalDate> birthDate,
        Optional<String> sex,
        List<OtherId> otherIds) {

    /** With a list that nobody can change. */
    public Patient {
        otherIds = List.copyOf(otherIds);
    }

    /** A patient who has one id. */
    public Patient(
            String id, Optional<String> issuer, PersonName name, Optional<LocalDate> birthDate, Optional<String> sex) {
        this(id, issuer, name, birthDate, sex, List.of());
    }

    /**
     * An id that somebody else gave the same person.
     *
     * @param id the id
     * @param issuer who gave it, if known
     */
    public record OtherId(String id, Optional<String> issuer) {}

    /** Whether an id is this patient's; where nobody says who gave it, the id has to do. */
    public boolean isCalled(String other, Optional<String> otherIssuer) {
        return id.equals(other) && (issuer.isEmpty() || otherIssuer.isEmpty() || issuer.equals(otherIssuer));
    }

    /** Nothing of the person; a patient does not belong in logs. */
    @Override
    public String toString() {
        return "patient";
    }
}
