/**
 * Keys, certificates and trust for secure transport connections (PS3.15 B.12, B.13), and what goes wrong with them in words. Start from
 * {@link vestibule.dicom.net.tls.Tls}. The JDK does the cryptography; no bytes of a connection are moved here.
 */
@NullMarked
package vestibule.dicom.net.tls;

import org.jspecify.annotations.NullMarked;
