/** Tests of the command. */
@NullMarked
package vestibule.validator.app;

import org.jspecify.annotations.NullMarked;
