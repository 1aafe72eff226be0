package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.patient.Known;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.CaptureTime;

/**
 * Photographs of one patient taken together.
 *
 * @param patient who it is, if that is decided
 * @param appointments what the practice system planned for the patient, on whatever day
 * @param shots its photographs, in the order they were taken
 * @param whole whether these are all of them; the order of a part says nothing
 */
record Sitting(Optional<Patient> patient, List<Known.Appointment> appointments, List<Shot> shots, boolean whole) {

    Sitting {
        appointments = List.copyOf(appointments);
        shots = List.copyOf(shots);
    }

    /**
     * One photograph of a sitting.
     *
     * @param candidate as it was taken in
     * @param frame what its bytes say
     */
    record Shot(Deciding.Candidate candidate, FrameReader.Frame frame) {

        /** When it was taken, by a clock put right. */
        Optional<CaptureTime> taken() {
            return frame.taken();
        }
    }
}
