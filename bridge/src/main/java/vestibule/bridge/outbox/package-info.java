/**
 * The durable list of what must reach the archive, in SQLite or PostgreSQL. It knows files and identifiers, neither patients nor sockets.
 * Start from {@link vestibule.bridge.outbox.Outbox}.
 */
@NullMarked
package vestibule.bridge.outbox;

import org.jspecify.annotations.NullMarked;
