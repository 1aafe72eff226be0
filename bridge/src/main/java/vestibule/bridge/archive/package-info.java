/**
 * The embedded archive, for demonstration and tests only. Start from {@link vestibule.bridge.archive.EmbeddedArchive}.
 */
@NullMarked
package vestibule.bridge.archive;

import org.jspecify.annotations.NullMarked;
