/**
 * Photographs come off cards and folders, which are only ever read, and lie safe under the hash of their bytes before anybody is told so.
 * Start from {@link vestibule.bridge.intake.SourceReader}, which looks at one source; {@link vestibule.bridge.intake.Originals} keeps what
 * it takes.
 */
@NullMarked
package vestibule.bridge.intake;

import org.jspecify.annotations.NullMarked;
