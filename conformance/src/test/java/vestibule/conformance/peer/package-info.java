/**
 * Programs that nobody here wrote, as fixtures: start from {@link vestibule.conformance.peer.ArchiveUnderTest} for an archive and
 * {@link vestibule.conformance.peer.Tool} for a command. A test that needs one is skipped, saying so, where it is absent.
 */
@NullMarked
package vestibule.conformance.peer;

import org.jspecify.annotations.NullMarked;
