/**
 * Who is on a photograph. Start from {@link vestibule.bridge.patient.Patient}.
 */
@NullMarked
package vestibule.bridge.patient;

import org.jspecify.annotations.NullMarked;
