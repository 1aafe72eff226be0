package vestibule.dicom.net;

import java.util.List;
import vestibule.dicom.data.Uid;

/**
 * A presentation context to propose (PS3.8 9.3.2.2). A sender that must know which transfer syntaxes are accepted proposes one in each
 * context.
 *
 * @param abstractSyntax the SOP class
 * @param transferSyntaxes what is offered for it, at least one
 */
public record ProposedContext(Uid abstractSyntax, List<Uid> transferSyntaxes) {

    /** How many one association may propose: the odd numbers of a byte. */
    public static final int MOST = 128;

    public ProposedContext {
        transferSyntaxes = List.copyOf(transferSyntaxes);
        if (transferSyntaxes.isEmpty()) {
            throw new IllegalArgumentException("a presentation context offers at least one transfer syntax");
        }
    }

    /** A context that offers a single transfer syntax. */
    public static ProposedContext of(Uid abstractSyntax, Uid transferSyntax) {
        return new ProposedContext(abstractSyntax, List.of(transferSyntax));
    }
}
