/**
 * Colours as other people's readers see them, compared by the difference that eyes see. Start from {@link
 * vestibule.conformance.color.ChartTest}.
 */
@NullMarked
package vestibule.conformance.color;

import org.jspecify.annotations.NullMarked;
