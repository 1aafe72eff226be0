/**
 * The network against archives and a toolkit that nobody here wrote. Start from {@link vestibule.conformance.network.OrthancInteroperationTest}; what is
 * proven with whom stands in {@code docs/interoperability.md}.
 */
@NullMarked
package vestibule.conformance.network;

import org.jspecify.annotations.NullMarked;
