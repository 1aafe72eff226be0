/**
 * The invented patients as solid bodies, and the cameras that look at them. Start from {@code Studio}.
 *
 * <p>Everything stands in one anatomical frame, in millimetres: x grows to the patient's left (L), y to the back (P),
 * z to the head (H). A picture is taken by pointing the rows and columns of the raster along anatomical directions, so
 * right and left follow from the body and cannot be painted on the wrong side.
 */
@NullMarked
package vestibule.samples.drawing;

import org.jspecify.annotations.NullMarked;
