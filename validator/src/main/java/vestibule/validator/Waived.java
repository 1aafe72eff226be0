package vestibule.validator;

/**
 * A finding that does not count.
 *
 * @param finding what was found
 * @param waiver what sets it aside
 */
public record Waived(Finding finding, Waiver waiver) {}
