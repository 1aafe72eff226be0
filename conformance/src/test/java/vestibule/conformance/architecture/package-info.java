/** The arrows of the house, checked. Start from {@link vestibule.conformance.architecture.HouseTest}. */
@NullMarked
package vestibule.conformance.architecture;

import org.jspecify.annotations.NullMarked;
