package vestibule.dicom.net;

import java.util.List;
import vestibule.dicom.data.Uid;

/**
 * What an acceptor takes for a SOP class.
 *
 * @param abstractSyntax the SOP class
 * @param transferSyntaxes the transfer syntaxes it takes, best first
 * @param asProvider whether it acts as service class provider
 * @param asUser whether it acts as service class user, if the requestor proposes that (PS3.7 D.3.3.4)
 */
public record SupportedContext(Uid abstractSyntax, List<Uid> transferSyntaxes, boolean asProvider, boolean asUser) {
    public SupportedContext {
        transferSyntaxes = List.copyOf(transferSyntaxes);
    }

    /** Support as provider only, the usual case. */
    public static SupportedContext provider(Uid abstractSyntax, List<Uid> transferSyntaxes) {
        return new SupportedContext(abstractSyntax, transferSyntaxes, true, false);
    }
}
