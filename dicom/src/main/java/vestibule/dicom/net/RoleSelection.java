package vestibule.dicom.net;

import vestibule.dicom.data.Uid;

/**
 * Which roles the requestor of an association takes for a SOP class (PS3.7 D.3.3.4); without one it is user, the acceptor provider.
 *
 * @param sopClass the SOP class
 * @param user whether the requestor acts as service class user
 * @param provider whether the requestor acts as service class provider
 */
public record RoleSelection(Uid sopClass, boolean user, boolean provider) {}
