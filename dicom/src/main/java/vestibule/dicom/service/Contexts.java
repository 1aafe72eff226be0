package vestibule.dicom.service;

import java.util.List;
import java.util.stream.Collectors;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.NegotiatedContext;

/** Sentences about presentation contexts. */
final class Contexts {

    private Contexts() {}

    /** Why nothing can be sent for a SOP class. */
    static String notAccepted(Association association, Uid sopClass) {
        return association.contexts().stream()
                .filter(context ->
                        context.abstractSyntax().filter(sopClass::equals).isPresent())
                .findFirst()
                .map(context ->
                        "%s: %s".formatted(name(sopClass), context.result().words()))
                .orElse("%s was not proposed to the peer".formatted(name(sopClass)));
    }

    /** Why an object cannot be sent in its transfer syntax, and what the peer accepts instead. */
    static String notAccepted(Association association, Uid sopClass, Uid transferSyntax) {
        String why = association.contexts().stream()
                .filter(context ->
                        context.abstractSyntax().filter(sopClass::equals).isPresent()
                                && context.proposed().contains(transferSyntax))
                .findFirst()
                .map(context -> context.result().words())
                .orElse("this combination was not proposed to the peer");
        String accepted = association.contexts().stream()
                .filter(context -> context.accepts(sopClass))
                .flatMap(context -> context.transferSyntax().stream())
                .map(Contexts::name)
                .collect(Collectors.joining(", "));
        return "%s in %s was not sent: %s; for this SOP class the peer accepted %s"
                .formatted(name(sopClass), name(transferSyntax), why, accepted.isEmpty() ? "nothing" : accepted);
    }

    static List<NegotiatedContext> accepted(Association association) {
        return association.contexts().stream()
                .filter(NegotiatedContext::isAccepted)
                .toList();
    }

    /** The name the standard gives, without what some transfer syntaxes say of themselves behind a colon; else the identifier. */
    static String name(Uid uid) {
        return Dictionary.standard()
                .find(uid)
                .map(entry -> entry.name().split(":", 2)[0])
                .orElse(uid.value());
    }
}
