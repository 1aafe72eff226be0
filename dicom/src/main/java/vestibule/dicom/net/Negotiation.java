package vestibule.dicom.net;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

/** Presentation contexts and roles, negotiated: pure functions of what is proposed and what is supported (PS3.8 9.3.3.2, PS3.7 D.3.3.4). */
final class Negotiation {

    private Negotiation() {}

    /** The acceptor's answer to each proposed context, in the order of the proposals. */
    static List<NegotiatedContext> answer(List<Pdu.ProposedItem> proposed, List<SupportedContext> supported) {
        return proposed.stream().map(item -> answer(item, supported)).toList();
    }

    private static NegotiatedContext answer(Pdu.ProposedItem item, List<SupportedContext> supported) {
        Optional<Uid> abstractSyntax = Uid.parse(item.abstractSyntax());
        List<Uid> offered = uids(item.transferSyntaxes());
        Optional<SupportedContext> known = supported.stream()
                .filter(context ->
                        abstractSyntax.filter(context.abstractSyntax()::equals).isPresent())
                .findFirst();
        if (known.isEmpty()) {
            return rejected(item, abstractSyntax, offered, ContextResult.ABSTRACT_SYNTAX_NOT_SUPPORTED);
        }
        Optional<Uid> chosen = known.get().transferSyntaxes().stream()
                .filter(offered::contains)
                .findFirst();
        return chosen.isPresent()
                ? new NegotiatedContext(item.id(), abstractSyntax, offered, ContextResult.ACCEPTED, chosen)
                : rejected(item, abstractSyntax, offered, ContextResult.TRANSFER_SYNTAXES_NOT_SUPPORTED);
    }

    private static NegotiatedContext rejected(
            Pdu.ProposedItem item, Optional<Uid> abstractSyntax, List<Uid> offered, ContextResult result) {
        return new NegotiatedContext(item.id(), abstractSyntax, offered, result, Optional.empty());
    }

    private static List<Uid> uids(List<String> texts) {
        return texts.stream().flatMap(text -> Uid.parse(text).stream()).toList();
    }

    /** What the requestor makes of an answer; a context is accepted only with a transfer syntax that was offered in it. */
    static List<NegotiatedContext> read(List<Pdu.ProposedItem> proposed, List<Pdu.ResultItem> answered) {
        Map<Integer, Pdu.ResultItem> byId =
                answered.stream().collect(Collectors.toMap(Pdu.ResultItem::id, Function.identity(), (a, b) -> a));
        return proposed.stream()
                .map(item -> read(item, Optional.ofNullable(byId.get(item.id()))))
                .toList();
    }

    private static NegotiatedContext read(Pdu.ProposedItem item, Optional<Pdu.ResultItem> answer) {
        Optional<Uid> abstractSyntax = Uid.parse(item.abstractSyntax());
        List<Uid> offered = uids(item.transferSyntaxes());
        ContextResult result = answer.map(a -> ContextResult.of(a.result())).orElse(ContextResult.UNANSWERED);
        if (result != ContextResult.ACCEPTED) {
            return rejected(item, abstractSyntax, offered, result);
        }
        Optional<Uid> chosen =
                answer.flatMap(a -> Uid.parse(a.transferSyntax())).filter(offered::contains);
        return chosen.isPresent()
                ? new NegotiatedContext(item.id(), abstractSyntax, offered, ContextResult.ACCEPTED, chosen)
                : rejected(item, abstractSyntax, offered, ContextResult.UNANSWERED);
    }

    /** The acceptor's answer to role selections: a role is granted only if it was proposed and the other side of it is supported. */
    static List<UserInformation.Role> answerRoles(
            List<UserInformation.Role> proposed, List<SupportedContext> supported) {
        List<UserInformation.Role> answer = new ArrayList<>();
        for (UserInformation.Role role : proposed) {
            supported.stream()
                    .filter(context -> context.abstractSyntax().value().equals(role.sopClass()))
                    .findFirst()
                    .ifPresent(context -> answer.add(new UserInformation.Role(
                            role.sopClass(),
                            role.user() && context.asProvider(),
                            role.provider() && context.asUser())));
        }
        return answer;
    }

    /** The roles in force after an answer: an acceptor may take roles back, but grants none that were not proposed. */
    static List<RoleSelection> readRoles(List<UserInformation.Role> proposed, List<UserInformation.Role> answered) {
        List<RoleSelection> inForce = new ArrayList<>();
        for (UserInformation.Role wanted : proposed) {
            Optional<UserInformation.Role> answer = answered.stream()
                    .filter(role -> role.sopClass().equals(wanted.sopClass()))
                    .findFirst();
            Optional<Uid> sopClass = Uid.parse(wanted.sopClass());
            if (answer.isPresent() && sopClass.isPresent()) {
                inForce.add(new RoleSelection(
                        sopClass.get(),
                        wanted.user() && answer.get().user(),
                        wanted.provider() && answer.get().provider()));
            }
        }
        return inForce;
    }
}
