/**
 * What the demonstration shows at its end. Start from {@link vestibule.conformance.demonstration.ContactSheet}.
 */
@NullMarked
package vestibule.conformance.demonstration;

import org.jspecify.annotations.NullMarked;
