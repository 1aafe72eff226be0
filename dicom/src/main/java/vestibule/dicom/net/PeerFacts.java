package vestibule.dicom.net;

import java.util.Optional;
import vestibule.dicom.data.Bulk;

/**
 * What negotiation told us of a peer.
 *
 * @param name title and address in words, as messages name it
 * @param calling the title of the requestor
 * @param called the title the requestor called
 * @param maximumPduLength the longest variable field of P-DATA-TF it takes, in bytes; 0 for no limit
 * @param implementationClass its Implementation Class UID; empty if it gave none
 * @param implementationVersion its Implementation Version Name; empty if it gave none
 * @param identity the user identity it gave as requestor
 * @param identityResponse what it answered as acceptor to a user identity of ours; empty if it said nothing, as one that does not know user
 *     identities does even when asked to answer (PS3.7 D.3.3.7.2)
 */
public record PeerFacts(
        String name,
        AeTitle calling,
        AeTitle called,
        long maximumPduLength,
        String implementationClass,
        String implementationVersion,
        Optional<UserIdentity> identity,
        Optional<Bulk> identityResponse) {}
