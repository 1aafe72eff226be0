/**
 * Service classes, one final class per service and role (PS3.4; PS3.7 9, 10). Start from {@link vestibule.dicom.service.StorageUser} to ask a
 * peer, from {@link vestibule.dicom.service.ServiceProvider} to be asked. Each answer is a closed type in which not knowing is a case of its
 * own. Nothing is ever dropped or re-encoded to make a send succeed.
 */
@NullMarked
package vestibule.dicom.service;

import org.jspecify.annotations.NullMarked;
