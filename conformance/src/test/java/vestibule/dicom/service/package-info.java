/** Tables of services compared with the facts of the standard; in the package of what they look at. */
@NullMarked
package vestibule.dicom.service;

import org.jspecify.annotations.NullMarked;
