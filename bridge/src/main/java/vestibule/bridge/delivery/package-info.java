/**
 * To and from the practice's archive. Start from {@link vestibule.bridge.delivery.Destination}.
 */
@NullMarked
package vestibule.bridge.delivery;

import org.jspecify.annotations.NullMarked;
