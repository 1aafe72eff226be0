/**
 * The checks that no table drives: file form, values, pixels, sense. {@link vestibule.validator.rules.AllChecks} lists them all.
 */
@NullMarked
package vestibule.validator.rules;

import org.jspecify.annotations.NullMarked;
