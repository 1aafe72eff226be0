package vestibule.dicom.net;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.net.tls.Tls;

/**
 * Whom an acceptor serves, and with what.
 *
 * @param title our own title; calls for another one are rejected; empty to answer to every title
 * @param callers the calling titles that are served; empty to serve all
 * @param contexts the SOP classes and transfer syntaxes it takes
 * @param admission decides on the user identity of a caller
 * @param maximumAssociations how many associations may stand at a time; more are rejected for now
 * @param maximumPduLength the longest variable field of P-DATA-TF we take, in bytes
 * @param deadlines how long each wait may last
 * @param tls with what connections are secured; empty for plain TCP
 */
public record AcceptorSettings(
        Optional<AeTitle> title,
        Set<AeTitle> callers,
        List<SupportedContext> contexts,
        Admission admission,
        int maximumAssociations,
        int maximumPduLength,
        Deadlines deadlines,
        Optional<Tls> tls) {

    private static final int USUAL_ASSOCIATIONS = 20;

    /** Decides whether a user may associate (PS3.7 D.3.3.7). */
    public interface Admission {
        /** Everybody, whatever identity they give or do not give. */
        Admission EVERYBODY = (calling, identity) -> Decision.ADMITTED;

        /** Whether the request goes on; it is rejected otherwise. */
        Decision decide(AeTitle calling, Optional<UserIdentity> identity);
    }

    /**
     * What an admission decides.
     *
     * @param admits whether the request goes on
     * @param serverResponse what a caller who asks for an answer is told: a ticket, assertion or token of ours; no bytes for a name, and for
     *     a name with a passcode (PS3.7 D.3.3.7.2)
     */
    public record Decision(boolean admits, Bulk serverResponse) {
        /** Welcome, with nothing to say. */
        public static final Decision ADMITTED = new Decision(true, Bulk.EMPTY);

        /** Not welcome. */
        public static final Decision REFUSED = new Decision(false, Bulk.EMPTY);
    }

    public AcceptorSettings {
        callers = Set.copyOf(callers);
        contexts = List.copyOf(contexts);
        AssociationRequest.checkPduLength(maximumPduLength);
        if (maximumAssociations < 1) {
            throw new IllegalArgumentException("an acceptor of %d associations".formatted(maximumAssociations));
        }
    }

    /** Serves every caller of that title, under default deadlines. */
    public static AcceptorSettings of(AeTitle title, List<SupportedContext> contexts) {
        return new AcceptorSettings(
                Optional.of(title),
                Set.of(),
                contexts,
                Admission.EVERYBODY,
                USUAL_ASSOCIATIONS,
                AssociationRequest.DEFAULT_MAXIMUM_PDU_LENGTH,
                Deadlines.DEFAULT,
                Optional.empty());
    }

    /** These, answering to every called title. */
    public AcceptorSettings answeringToEveryTitle() {
        return new AcceptorSettings(
                Optional.empty(), callers, contexts, admission, maximumAssociations, maximumPduLength, deadlines, tls);
    }

    /** These, serving only those calling titles. */
    public AcceptorSettings withCallers(Set<AeTitle> only) {
        return new AcceptorSettings(
                title, only, contexts, admission, maximumAssociations, maximumPduLength, deadlines, tls);
    }

    /** These with other contexts. */
    public AcceptorSettings withContexts(List<SupportedContext> others) {
        return new AcceptorSettings(
                title, callers, others, admission, maximumAssociations, maximumPduLength, deadlines, tls);
    }

    /** These with another decision on user identities. */
    public AcceptorSettings withAdmission(Admission other) {
        return new AcceptorSettings(
                title, callers, contexts, other, maximumAssociations, maximumPduLength, deadlines, tls);
    }

    /** These with another bound on associations. */
    public AcceptorSettings withMaximumAssociations(int most) {
        return new AcceptorSettings(title, callers, contexts, admission, most, maximumPduLength, deadlines, tls);
    }

    /** These with another maximum length. */
    public AcceptorSettings withMaximumPduLength(int bytes) {
        return new AcceptorSettings(title, callers, contexts, admission, maximumAssociations, bytes, deadlines, tls);
    }

    /** These with other deadlines. */
    public AcceptorSettings withDeadlines(Deadlines others) {
        return new AcceptorSettings(
                title, callers, contexts, admission, maximumAssociations, maximumPduLength, others, tls);
    }

    /** These, for callers by TLS only. */
    public AcceptorSettings withTls(Tls credentials) {
        return new AcceptorSettings(
                title,
                callers,
                contexts,
                admission,
                maximumAssociations,
                maximumPduLength,
                deadlines,
                Optional.of(credentials));
    }
}
