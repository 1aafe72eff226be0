package vestibule.dicom.net.pdu;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Bulk;

/**
 * User information of A-ASSOCIATE-RQ and -AC (PS3.8 9.3.2.3, D; PS3.7 D.3.3).
 *
 * @param maximumLength the longest variable field of a P-DATA-TF PDU its sender takes, in bytes; 0 for no limit
 * @param implementationClass Implementation Class UID; empty if the peer left it out
 * @param implementationVersion Implementation Version Name; empty if there is none
 * @param asynchronous the asynchronous operations window, if one is negotiated
 * @param roles role selections
 * @param extended SOP class extended negotiations
 * @param commonExtended SOP class common extended negotiations
 * @param identity who the requestor's user is, if it says
 * @param identityResponse the acceptor's answer to that, if it gives one
 */
public record UserInformation(
        long maximumLength,
        String implementationClass,
        String implementationVersion,
        Optional<AsynchronousWindow> asynchronous,
        List<Role> roles,
        List<Extended> extended,
        List<CommonExtended> commonExtended,
        Optional<Identity> identity,
        Optional<Bulk> identityResponse) {

    /** Assumed of a peer that leaves the item out although PS3.7 D.3.3.1 asks for it: small enough for every receiver. */
    public static final long MAXIMUM_LENGTH_IF_ABSENT = 16_384;

    public UserInformation {
        roles = List.copyOf(roles);
        extended = List.copyOf(extended);
        commonExtended = List.copyOf(commonExtended);
    }

    /** User information with the two items every association has, and nothing else. */
    public static UserInformation of(long maximumLength, String implementationClass, String implementationVersion) {
        return new UserInformation(
                maximumLength,
                implementationClass,
                implementationVersion,
                Optional.empty(),
                List.of(),
                List.of(),
                List.of(),
                Optional.empty(),
                Optional.empty());
    }

    /**
     * Asynchronous operations window (PS3.7 D.3.3.3); 0 for no limit.
     *
     * @param invoked how many operations may be outstanding towards the peer
     * @param performed how many may be outstanding from the peer
     */
    public record AsynchronousWindow(int invoked, int performed) {}

    /**
     * SCP/SCU role selection (PS3.7 D.3.3.4).
     *
     * @param sopClass the SOP class
     * @param user whether the requestor may be service class user
     * @param provider whether the requestor may be service class provider
     */
    public record Role(String sopClass, boolean user, boolean provider) {}

    /**
     * SOP class extended negotiation (PS3.7 D.3.3.5).
     *
     * @param sopClass the SOP class
     * @param information what the service class defines
     */
    public record Extended(String sopClass, Bulk information) {}

    /**
     * SOP class common extended negotiation (PS3.7 D.3.3.6).
     *
     * @param sopClass the SOP class
     * @param serviceClass its service class
     * @param general the general SOP classes it is a kind of
     */
    public record CommonExtended(String sopClass, String serviceClass, List<String> general) {
        public CommonExtended {
            general = List.copyOf(general);
        }
    }

    /**
     * User identity (PS3.7 D.3.3.7.1).
     *
     * @param type 1 name, 2 name and passcode, 3 Kerberos, 4 SAML, 5 JSON Web Token
     * @param responseWanted whether the requestor asks for an answer
     * @param primary the name, ticket, assertion or token
     * @param secondary the passcode; empty for all other types
     */
    public record Identity(int type, boolean responseWanted, Bulk primary, Bulk secondary) {

        /** The type only: names and passcodes do not belong in logs. */
        @Override
        public String toString() {
            return "user identity of type " + type;
        }
    }
}
