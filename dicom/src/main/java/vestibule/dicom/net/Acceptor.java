package vestibule.dicom.net;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.Implementation;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

/** The acceptor's side of negotiation (PS3.8 7.1.1, 9.3.4; PS3.7 D.3). */
final class Acceptor {

    private final AcceptorSettings settings;
    private final boolean full;

    /**
     * @param full whether as many associations stand as may
     */
    Acceptor(AcceptorSettings settings, boolean full) {
        this.settings = settings;
        this.full = full;
    }

    /** Negotiates. */
    Association negotiate(Transport transport) throws AssociationException {
        UpperLayer upper = UpperLayer.acceptor(transport, settings.deadlines(), settings.maximumPduLength());
        Pdu.AssociateRq request = upper.awaitRequest();
        Optional<UserIdentity> identity = request.user().identity().flatMap(Acceptor::identity);
        Optional<Rejection> rejection = rejection(request);
        AcceptorSettings.Decision decision = rejection.isPresent()
                ? AcceptorSettings.Decision.REFUSED
                : settings.admission().decide(new AeTitle(request.callingAe()), identity);
        if (!decision.admits()) {
            Rejection answer = rejection.orElse(Rejection.permanent(Rejection.Reason.NO_REASON_GIVEN_BY_PROVIDER));
            upper.reject(answer);
            throw new AssociationException.TurnedAway(
                    upper.peer(),
                    request.callingAe().strip(),
                    request.calledAe().strip(),
                    answer);
        }
        List<NegotiatedContext> contexts = Negotiation.answer(request.contexts(), settings.contexts());
        List<UserInformation.Role> roles =
                Negotiation.answerRoles(request.user().roles(), settings.contexts());
        upper.accept(acceptPdu(request, contexts, roles, decision.serverResponse()));
        PeerFacts facts = new PeerFacts(
                "%s (%s)".formatted(request.callingAe().strip(), upper.peer()),
                new AeTitle(request.callingAe()),
                new AeTitle(request.calledAe()),
                request.user().maximumLength(),
                request.user().implementationClass(),
                request.user().implementationVersion(),
                identity,
                Optional.empty());
        return new Association(
                upper,
                settings.deadlines(),
                contexts,
                Negotiation.readRoles(request.user().roles(), roles),
                facts);
    }

    private Optional<Rejection> rejection(Pdu.AssociateRq request) {
        if (full) {
            return Optional.of(Rejection.transientOne(Rejection.Reason.LOCAL_LIMIT_EXCEEDED));
        }
        return reason(request).map(Rejection::permanent);
    }

    private Optional<Rejection.Reason> reason(Pdu.AssociateRq request) {
        Optional<AeTitle> calling = AeTitle.parse(request.callingAe());
        Optional<AeTitle> called = AeTitle.parse(request.calledAe());
        if ((request.protocolVersion() & Requestor.PROTOCOL_VERSION) == 0) {
            return Optional.of(Rejection.Reason.PROTOCOL_VERSION_NOT_SUPPORTED);
        }
        if (!request.applicationContext().equals(Uids.DICOM_APPLICATION_CONTEXT.value())) {
            return Optional.of(Rejection.Reason.APPLICATION_CONTEXT_NOT_SUPPORTED);
        }
        if (called.isEmpty()
                || settings.title().filter(own -> !own.equals(called.get())).isPresent()) {
            return Optional.of(Rejection.Reason.CALLED_AE_TITLE_NOT_RECOGNIZED);
        }
        if (calling.isEmpty()
                || (!settings.callers().isEmpty() && !settings.callers().contains(calling.get()))) {
            return Optional.of(Rejection.Reason.CALLING_AE_TITLE_NOT_RECOGNIZED);
        }
        return MessageWriter.canServe(request.user().maximumLength())
                ? Optional.empty()
                : Optional.of(Rejection.Reason.NO_REASON_GIVEN_BY_PROVIDER);
    }

    private static Optional<UserIdentity> identity(UserInformation.Identity identity) {
        UserIdentity.Type[] types = UserIdentity.Type.values();
        return identity.type() >= 1 && identity.type() <= types.length
                ? Optional.of(new UserIdentity(
                        types[identity.type() - 1],
                        identity.responseWanted(),
                        identity.primary(),
                        identity.secondary()))
                : Optional.empty();
    }

    private Pdu.AssociateAc acceptPdu(
            Pdu.AssociateRq request,
            List<NegotiatedContext> contexts,
            List<UserInformation.Role> roles,
            Optional<Bulk> serverResponse) {
        UserInformation user = new UserInformation(
                settings.maximumPduLength(),
                Implementation.CLASS_UID.value(),
                Implementation.VERSION_NAME,
                // Whatever window is proposed, one operation at a time is what we do
                request.user().asynchronous().map(any -> new UserInformation.AsynchronousWindow(1, 1)),
                roles,
                List.of(),
                List.of(),
                Optional.empty(),
                request.user()
                        .identity()
                        .filter(UserInformation.Identity::responseWanted)
                        .flatMap(any -> serverResponse));
        return new Pdu.AssociateAc(
                Requestor.PROTOCOL_VERSION,
                request.calledAe(),
                request.callingAe(),
                request.reserved(),
                Uids.DICOM_APPLICATION_CONTEXT.value(),
                contexts.stream().map(Acceptor::resultItem).toList(),
                user);
    }

    private static Pdu.ResultItem resultItem(NegotiatedContext context) {
        String transferSyntax = context.transferSyntax()
                .or(() -> context.proposed().stream().findFirst())
                .orElse(Uids.IMPLICIT_VR_LITTLE_ENDIAN)
                .value();
        return new Pdu.ResultItem(context.id(), context.result().code(), transferSyntax);
    }
}
