package vestibule.dicom.net;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.Implementation;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

/** The requestor's side of negotiation (PS3.8 7.1.1; PS3.7 D.3). */
final class Requestor {

    static final int PROTOCOL_VERSION = 1;

    private Requestor() {}

    static Association negotiate(
            Transport transport, AssociationRequest request, ApplicationEntity peer, Deadlines deadlines)
            throws AssociationException {
        UpperLayer upper = UpperLayer.requestor(transport, deadlines, request.maximumPduLength(), peer.toString());
        Pdu.AssociateRq wanted = requestPdu(request, peer);
        Pdu.AssociateAc answer = upper.request(wanted);
        List<NegotiatedContext> contexts = Negotiation.read(wanted.contexts(), answer.contexts());
        UserInformation user = answer.user();
        if (!MessageWriter.canServe(user.maximumLength())) {
            throw upper.violation(
                    "it takes PDUs of at most %d bytes, which hold no data".formatted(user.maximumLength()), null);
        }
        PeerFacts facts = new PeerFacts(
                peer.toString(),
                request.calling(),
                peer.title(),
                user.maximumLength(),
                user.implementationClass(),
                user.implementationVersion(),
                Optional.empty(),
                user.identityResponse());
        return new Association(
                upper, deadlines, contexts, Negotiation.readRoles(wanted.user().roles(), user.roles()), facts);
    }

    private static Pdu.AssociateRq requestPdu(AssociationRequest request, ApplicationEntity peer) {
        List<Pdu.ProposedItem> items = new ArrayList<>();
        for (ProposedContext context : request.contexts()) {
            items.add(new Pdu.ProposedItem(
                    2 * items.size() + 1,
                    context.abstractSyntax().value(),
                    context.transferSyntaxes().stream().map(Uid::value).toList()));
        }
        return new Pdu.AssociateRq(
                PROTOCOL_VERSION,
                peer.title().value(),
                request.calling().value(),
                "",
                Uids.DICOM_APPLICATION_CONTEXT.value(),
                items,
                userInformation(request));
    }

    private static UserInformation userInformation(AssociationRequest request) {
        return new UserInformation(
                request.maximumPduLength(),
                Implementation.CLASS_UID.value(),
                Implementation.VERSION_NAME,
                Optional.empty(),
                request.roles().stream()
                        .map(role -> new UserInformation.Role(role.sopClass().value(), role.user(), role.provider()))
                        .toList(),
                List.of(),
                List.of(),
                request.identity().map(Requestor::identity),
                Optional.empty());
    }

    private static UserInformation.Identity identity(UserIdentity identity) {
        int type = switch (identity.type()) {
            case NAME -> 1;
            case NAME_AND_PASSCODE -> 2;
            case KERBEROS_TICKET -> 3;
            case SAML_ASSERTION -> 4;
            case JSON_WEB_TOKEN -> 5;
        };
        return new UserInformation.Identity(type, identity.responseWanted(), identity.primary(), identity.secondary());
    }
}
