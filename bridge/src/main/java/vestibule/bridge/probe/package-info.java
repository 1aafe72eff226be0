/**
 * Tests the whole link to an archive step by step and says in a sentence what is wrong. Start from {@link vestibule.bridge.probe.Probe}.
 */
@NullMarked
package vestibule.bridge.probe;

import org.jspecify.annotations.NullMarked;
