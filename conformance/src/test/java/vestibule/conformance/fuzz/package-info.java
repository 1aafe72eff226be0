/**
 * Fuzz targets: bytes from outside may be refused by the one checked exception, and by nothing else. Ordinary runs replay the saved inputs;
 * {@code conformance/campaign.sh fuzz} searches for new ones. Start from {@link vestibule.conformance.fuzz.DataSetFuzzTest}.
 */
@NullMarked
package vestibule.conformance.fuzz;

import org.jspecify.annotations.NullMarked;
