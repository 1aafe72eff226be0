/** Proof against tools that nobody here wrote. Start from {@link vestibule.conformance.Corpus}, the real files tests run over. */
@NullMarked
package vestibule.conformance;

import org.jspecify.annotations.NullMarked;
