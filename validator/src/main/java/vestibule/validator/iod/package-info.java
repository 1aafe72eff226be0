/**
 * The module tables of the VL Photographic Image IOD as data, their condition language, and the walk that holds them against a data set.
 * Start from {@link vestibule.validator.iod.ModuleCheck}.
 */
@NullMarked
package vestibule.validator.iod;

import org.jspecify.annotations.NullMarked;
