/**
 * What other readers make of our files, and we of theirs. Start from {@link vestibule.conformance.crosscheck.Flat}, the form in which two
 * readings are compared.
 */
@NullMarked
package vestibule.conformance.crosscheck;

import org.jspecify.annotations.NullMarked;
