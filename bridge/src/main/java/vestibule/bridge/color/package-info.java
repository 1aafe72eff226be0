/**
 * What the colours of a photograph mean, as an ICC profile of the input class that an object may carry (PS3.3 C.11.15). Start from
 * {@link vestibule.bridge.color.Colors}.
 */
@NullMarked
package vestibule.bridge.color;

import org.jspecify.annotations.NullMarked;
