/**
 * Checks DICOM objects against the standard and the rules of the practice. Start from {@link vestibule.validator.Validator}.
 */
@NullMarked
package vestibule.validator;

import org.jspecify.annotations.NullMarked;
