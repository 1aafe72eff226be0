/**
 * Protocol data units of the upper layer as values, and their bytes (PS3.8 9.3). Start from {@link vestibule.dicom.net.pdu.Pdu}. Hidden:
 * {@code net} alone speaks to peers.
 */
@NullMarked
package vestibule.dicom.net.pdu;

import org.jspecify.annotations.NullMarked;
