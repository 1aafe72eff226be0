package vestibule.dicom.net;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Uid;

/**
 * A presentation context after negotiation (PS3.8 9.3.3.2).
 *
 * @param id its number in the association
 * @param abstractSyntax the SOP class as proposed; empty where the proposal was no unique identifier
 * @param proposed the transfer syntaxes as proposed
 * @param result what became of it
 * @param transferSyntax the one in use; there if and only if it was accepted
 */
public record NegotiatedContext(
        int id, Optional<Uid> abstractSyntax, List<Uid> proposed, ContextResult result, Optional<Uid> transferSyntax) {
    public NegotiatedContext {
        proposed = List.copyOf(proposed);
    }

    /** Whether messages may travel on it. */
    public boolean isAccepted() {
        return result == ContextResult.ACCEPTED;
    }

    /** Whether it is accepted for that SOP class. */
    public boolean accepts(Uid sopClass) {
        return isAccepted() && abstractSyntax.filter(sopClass::equals).isPresent();
    }
}
