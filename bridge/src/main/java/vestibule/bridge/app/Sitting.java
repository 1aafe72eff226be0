package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.Order;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.CaptureTime;
import vestibule.bridge.photo.Photo;

/**
 * Photographs of one patient taken together.
 *
 * @param patient who it is, if that is decided
 * @param orders what the practice system ordered for the patient on that day
 * @param shots its photographs, in the order they were taken
 */
record Sitting(Optional<Patient> patient, List<Order> orders, List<Shot> shots) {

    /** A sitting without an order. */
    Sitting(Optional<Patient> patient, List<Shot> shots) {
        this(patient, List.of(), shots);
    }

    Sitting {
        orders = List.copyOf(orders);
        shots = List.copyOf(shots);
    }

    /**
     * One photograph of a sitting.
     *
     * @param candidate as it was taken in
     * @param photo what its bytes say
     * @param taken when it was taken, by a clock put right
     */
    record Shot(Deciding.Candidate candidate, Photo photo, Optional<CaptureTime> taken) {}
}
