/** Tests of what checks are made of. */
@NullMarked
package vestibule.validator.rules;

import org.jspecify.annotations.NullMarked;
