package vestibule.samples;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * An invented patient of the invented practice.
 *
 * @param id Patient ID
 * @param issuer who gave the id
 * @param name as a DICOM person name: family^given^middle^prefix^suffix, groups joined by = (PS3.5 6.2)
 * @param birthDate absent for the one patient whose birth date nobody wrote down
 * @param sex M, F or O
 * @param characterSet a value for Specific Character Set (0008,0005) that holds the name; empty where the default repertoire does; UTF-8
 *     (ISO_IR 192) holds every one
 */
public record SamplePatient(
        String id, String issuer, String name, @Nullable LocalDate birthDate, String sex, String characterSet) {}
