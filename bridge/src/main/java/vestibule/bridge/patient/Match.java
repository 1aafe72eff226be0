package vestibule.bridge.patient;

import java.util.List;
import java.util.Optional;

/** What matching came to. */
public sealed interface Match {

    /**
     * One patient, by at least two identifiers.
     *
     * @param patient who it is, in the words of whoever knows the patient best
     * @param evidence why
     * @param appointments what is planned for the patient
     */
    record Certain(Patient patient, List<Evidence> evidence, List<Known.Appointment> appointments) implements Match {
        public Certain {
            evidence = List.copyOf(evidence);
            appointments = List.copyOf(appointments);
        }
    }

    /**
     * A person has to say.
     *
     * @param reason why
     * @param proposal who it probably is, only where exactly one patient comes into question and nothing speaks against it
     */
    record Doubt(Reason reason, Optional<Patient> proposal) implements Match {}
}
