/** The state table compared with the facts of the standard; in the package of what it looks at. */
@NullMarked
package vestibule.dicom.net.upper;

import org.jspecify.annotations.NullMarked;
