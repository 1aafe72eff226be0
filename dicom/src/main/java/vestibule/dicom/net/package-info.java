/**
 * Associations between application entities and the messages that travel on them (PS3.8, PS3.7). Start from
 * {@link vestibule.dicom.net.Association} to call a peer, from {@link vestibule.dicom.net.AssociationListener} to be called. Every wait
 * has a deadline; what can go wrong is the closed family {@link vestibule.dicom.net.AssociationException}. Services live one package up,
 * in {@code vestibule.dicom.service}.
 */
@NullMarked
package vestibule.dicom.net;

import org.jspecify.annotations.NullMarked;
