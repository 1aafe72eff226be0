package vestibule.dicom.net;

import java.util.List;
import java.util.Optional;

/**
 * What a requestor asks of a peer (PS3.8 7.1.1, PS3.7 D.3).
 *
 * @param calling our own title
 * @param contexts the presentation contexts, 1 to 128, in order
 * @param roles roles other than the usual ones
 * @param identity who our user is, if the peer wants to know
 * @param maximumPduLength the longest variable field of P-DATA-TF we take, in bytes
 */
public record AssociationRequest(
        AeTitle calling,
        List<ProposedContext> contexts,
        List<RoleSelection> roles,
        Optional<UserIdentity> identity,
        int maximumPduLength) {

    /** What we take unless told otherwise: many receivers know no more, and more gains nothing. */
    public static final int DEFAULT_MAXIMUM_PDU_LENGTH = 131_072;

    static final int LEAST_PDU_LENGTH = 4_096;
    static final int MOST_PDU_LENGTH = 1 << 22;

    public AssociationRequest {
        contexts = List.copyOf(contexts);
        roles = List.copyOf(roles);
        if (contexts.isEmpty() || contexts.size() > ProposedContext.MOST) {
            throw new IllegalArgumentException("%d presentation contexts; an association proposes 1 to %d"
                    .formatted(contexts.size(), ProposedContext.MOST));
        }
        checkPduLength(maximumPduLength);
    }

    static void checkPduLength(int maximumPduLength) {
        if (maximumPduLength < LEAST_PDU_LENGTH || maximumPduLength > MOST_PDU_LENGTH) {
            throw new IllegalArgumentException("a maximum PDU length of %d bytes; %d to %d are taken"
                    .formatted(maximumPduLength, LEAST_PDU_LENGTH, MOST_PDU_LENGTH));
        }
    }

    /** A request with the usual roles, no user identity and the default maximum length. */
    public static AssociationRequest of(AeTitle calling, List<ProposedContext> contexts) {
        return new AssociationRequest(calling, contexts, List.of(), Optional.empty(), DEFAULT_MAXIMUM_PDU_LENGTH);
    }

    /** This request with role selections. */
    public AssociationRequest withRoles(List<RoleSelection> selections) {
        return new AssociationRequest(calling, contexts, selections, identity, maximumPduLength);
    }

    /** This request with a user identity. */
    public AssociationRequest withIdentity(UserIdentity user) {
        return new AssociationRequest(calling, contexts, roles, Optional.of(user), maximumPduLength);
    }

    /** This request with another maximum length. */
    public AssociationRequest withMaximumPduLength(int bytes) {
        return new AssociationRequest(calling, contexts, roles, identity, bytes);
    }
}
