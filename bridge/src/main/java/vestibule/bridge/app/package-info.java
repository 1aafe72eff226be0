/**
 * The command line. Start from {@link vestibule.bridge.app.Main}; each command is a class of its own.
 */
@NullMarked
package vestibule.bridge.app;

import org.jspecify.annotations.NullMarked;
