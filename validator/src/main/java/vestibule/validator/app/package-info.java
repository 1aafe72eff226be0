/** The command {@code vestibule-validator}. Start from {@link vestibule.validator.app.Main}. */
@NullMarked
package vestibule.validator.app;

import org.jspecify.annotations.NullMarked;
