/**
 * The DICOM object of a photograph: a pure function of the photo, the decisions about it and the settings of the practice,
 * the same bytes every time. Start from {@link vestibule.bridge.object.PhotographicObject}.
 */
@NullMarked
package vestibule.bridge.object;

import org.jspecify.annotations.NullMarked;
