/**
 * The state machine of the upper layer as a table (PS3.8 9.2). Start from {@link vestibule.dicom.net.upper.StateTable}. No sockets and
 * no clocks here: {@code net} carries the effects out.
 */
@NullMarked
package vestibule.dicom.net.upper;

import org.jspecify.annotations.NullMarked;
