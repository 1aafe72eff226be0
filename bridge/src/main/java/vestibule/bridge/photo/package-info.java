/**
 * One JPEG as the camera wrote it: identity, structure, and what the camera noted about the shot. Start from
 * {@link vestibule.bridge.photo.Photo}.
 */
@NullMarked
package vestibule.bridge.photo;

import org.jspecify.annotations.NullMarked;
