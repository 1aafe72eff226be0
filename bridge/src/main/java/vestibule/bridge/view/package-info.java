/**
 * What a photograph shows and how: the catalogue of views, the capture, the teeth. Start from
 * {@link vestibule.bridge.view.ViewCatalogue}; {@link vestibule.bridge.view.Placement} is what a decision about the view comes to.
 */
@NullMarked
package vestibule.bridge.view;

import org.jspecify.annotations.NullMarked;
