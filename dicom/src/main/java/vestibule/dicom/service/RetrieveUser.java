package vestibule.dicom.service;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.RoleSelection;
import vestibule.dicom.net.SupportedContext;
import vestibule.dicom.service.RetrieveOutcome.Counts;

/** Fetches objects from an archive (PS3.4 C.4.2 C-MOVE, C.4.3 C-GET). */
public final class RetrieveUser {

    private static final Logger LOG = LoggerFactory.getLogger(RetrieveUser.class);
    private static final int LONGEST_IDENTIFIER = 16 << 20;

    private final Association association;
    private final QueryLevel.Model model;

    /** A user of that association under an information model. */
    public RetrieveUser(Association association, QueryLevel.Model model) {
        this.association = association;
        this.model = model;
    }

    /**
     * A request for an association on which objects come back by C-GET, for which we are provider of storage (PS3.7 D.3.3.4).
     *
     * @param storage what can be received; one transfer syntax for each context
     */
    public static AssociationRequest getRequest(
            AeTitle calling, QueryLevel.Model model, Collection<SupportedContext> storage) {
        List<ProposedContext> contexts = new ArrayList<>();
        contexts.add(QueryUser.proposal(model.get()));
        List<RoleSelection> roles = new ArrayList<>();
        for (SupportedContext each : storage) {
            each.transferSyntaxes().forEach(syntax -> contexts.add(ProposedContext.of(each.abstractSyntax(), syntax)));
            roles.add(new RoleSelection(each.abstractSyntax(), false, true));
        }
        return AssociationRequest.of(calling, contexts).withRoles(roles);
    }

    /** What to propose for C-MOVE. */
    public static ProposedContext moveProposal(QueryLevel.Model model) {
        return QueryUser.proposal(model.move());
    }

    /**
     * Has objects sent to us on this association.
     *
     * @param level the level of the unique keys
     * @param uniqueKeys the unique key of that level and of each above it; the level is added
     * @param storage takes the objects
     */
    public RetrieveOutcome get(QueryLevel level, DataSet uniqueKeys, StorageProvider storage) {
        association.onRequest((on, message) -> {
            if (message.command().field() != CommandField.C_STORE_RQ) {
                throw on.violation(message.command().field() + " came where objects were expected");
            }
            storage.handle(on, message);
        });
        return exchange(
                model.get(),
                Command.get(association.nextMessageId(), model.get()),
                level,
                uniqueKeys,
                Status.Service.C_GET);
    }

    /**
     * Has objects sent to another application entity, whose address the archive must know.
     *
     * @param level the level of the unique keys
     * @param uniqueKeys the unique key of that level and of each above it; the level is added
     * @param destination who is to receive them
     */
    public RetrieveOutcome move(QueryLevel level, DataSet uniqueKeys, AeTitle destination) {
        return exchange(
                model.move(),
                Command.move(association.nextMessageId(), model.move(), destination),
                level,
                uniqueKeys,
                Status.Service.C_MOVE);
    }

    private RetrieveOutcome exchange(
            Uid sopClass, Command request, QueryLevel level, DataSet uniqueKeys, Status.Service service) {
        Optional<NegotiatedContext> context = association.accepted(sopClass);
        if (context.isEmpty()) {
            return new RetrieveOutcome.NotSent(Contexts.notAccepted(association, sopClass));
        }
        if (!association.isOpen()) {
            return new RetrieveOutcome.NotSent("the association has ended; open a new one");
        }
        DataSet identifier = uniqueKeys.toBuilder()
                .put(Attributes.QUERY_RETRIEVE_LEVEL, level.name())
                .build();
        Counts counts = Counts.NONE;
        try {
            association.send(context.get(), request, identifier);
            while (true) {
                Message answer = association.answerTo(request);
                counts = Counts.of(answer.command());
                Status status = Status.of(service, answer.command().status());
                if (status.category() != Status.Category.PENDING) {
                    return outcome(status, answer.command().comment(), counts, failed(answer));
                }
            }
        } catch (IOException e) {
            return new RetrieveOutcome.Unknown(e, counts);
        }
    }

    /** The identifier of the last answer; a peer that garbles it has still said what it said by its status. */
    private List<Uid> failed(Message answer) throws IOException {
        if (!answer.command().hasDataSet()) {
            return List.of();
        }
        try {
            DataSet identifier = association.receiveDataSet(answer, LONGEST_IDENTIFIER);
            return identifier.texts(Attributes.FAILED_SOP_INSTANCE_UID_LIST).stream()
                    .flatMap(text -> Uid.parse(text).stream())
                    .toList();
        } catch (DicomFormatException e) {
            LOG.debug("the list of failed instances cannot be read", e);
            return List.of();
        }
    }

    private static RetrieveOutcome outcome(Status status, String comment, Counts counts, List<Uid> failed) {
        if (!status.isDone()) {
            return new RetrieveOutcome.Refused(status, comment, counts);
        }
        boolean whole = status.category() == Status.Category.SUCCESS && counts.failed() == 0 && counts.warning() == 0;
        return whole ? new RetrieveOutcome.Done(counts) : new RetrieveOutcome.DoneInPart(counts, failed);
    }
}
