/**
 * Makes the committed tables from the facts of the standard, so that no table is typed by hand. Start from
 * {@link vestibule.conformance.tables.TableExtraction}.
 */
@NullMarked
package vestibule.conformance.tables;

import org.jspecify.annotations.NullMarked;
