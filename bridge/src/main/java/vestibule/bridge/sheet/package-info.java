/**
 * A page on which a person checks a sitting before it is released: every picture as it is filed, the patient's directions beside it, what
 * is proposed and what is missing. Start from {@link vestibule.bridge.sheet.ContactSheet}.
 */
@NullMarked
package vestibule.bridge.sheet;

import org.jspecify.annotations.NullMarked;
