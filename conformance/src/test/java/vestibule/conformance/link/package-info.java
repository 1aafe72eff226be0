/** The link to a peer whatever the peer does: scripts of raw bytes, TLS with other toolkits, the probe. */
@NullMarked
package vestibule.conformance.link;

import org.jspecify.annotations.NullMarked;
