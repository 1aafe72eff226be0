package vestibule.bridge.app;

import java.time.LocalDate;
import java.util.Optional;
import vestibule.bridge.patient.Identity;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/** A person's word on who it is: a patient id, or an object of JSON with {@code id}, {@code issuer}, {@code name}, {@code birthDate} and {@code sex}. */
final class PatientWord {

    private static final String WHAT = "the patient";

    private PatientWord() {}

    /** Whom the word names; empty if it is of neither form. */
    static Optional<Identity> parse(String value) {
        try {
            return Optional.of(read(value));
        } catch (Failure otherForm) {
            return Optional.empty();
        }
    }

    /**
     * Whom the word names.
     *
     * @throws Failure if it is of neither form; the sentence names nobody
     */
    static Identity read(String value) throws Failure {
        if (!value.stripLeading().startsWith("{")) {
            return Identity.ofId(id(value.strip())
                    .orElseThrow(() -> new Failure(
                            Exit.USAGE,
                            "%s: found something else than a patient id of 1 to 64 characters.".formatted(WHAT))));
        }
        StrictObject object = StrictObject.of(WHAT, value);
        Identity who = new Identity(
                Optional.of(object.formed("id", PatientWord::id, "a patient id of 1 to 64 characters")),
                object.optional("issuer", PatientWord::id, "an issuer of 1 to 64 characters"),
                object.optional(
                        "name",
                        text -> PersonName.parse(text).filter(name -> !name.isEmpty()),
                        "a name as FAMILY^GIVEN^MIDDLE^PREFIX^SUFFIX"),
                object.optional("birthDate", text -> Optional.of(LocalDate.parse(text)), "a day as YYYY-MM-DD"),
                object.optional(
                        "sex", text -> text.matches("[MFO]") ? Optional.of(text) : Optional.empty(), "M, F or O"));
        object.end();
        return who;
    }

    private static Optional<String> id(String text) {
        return text.isBlank() || TextForm.problem(VR.LO, text).isPresent()
                ? Optional.empty()
                : Optional.of(text.strip());
    }
}
