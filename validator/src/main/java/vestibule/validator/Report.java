package vestibule.validator;

import java.util.List;

/**
 * The verdicts on a batch, held together; for large batches give {@link Validator#validate(java.util.Collection, ObjectReader)} a reader
 * instead.
 *
 * @param edition the edition of the standard
 * @param profile the profile's name
 * @param objects one report an object, in the order they were met
 * @param whole what is said of the batch as a whole
 */
public record Report(String edition, String profile, List<ObjectReport> objects, BatchReport whole) {

    public Report {
        objects = List.copyOf(objects);
    }

    /** How many objects got which verdict. */
    public Summary summary() {
        return whole.summary();
    }
}
