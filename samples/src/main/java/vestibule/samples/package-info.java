/** The invented practice. Start from {@code Samples}. */
@NullMarked
package vestibule.samples;

import org.jspecify.annotations.NullMarked;
