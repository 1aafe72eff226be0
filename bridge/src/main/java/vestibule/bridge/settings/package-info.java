/**
 * The settings file of a practice, read once and handed down. Start from {@link vestibule.bridge.settings.Settings}.
 */
@NullMarked
package vestibule.bridge.settings;

import org.jspecify.annotations.NullMarked;
