package vestibule.dicom.service;

import java.io.IOException;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.ReadNote;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.StoreOutcome.NotSent;
import vestibule.dicom.service.StoreOutcome.Refused;
import vestibule.dicom.service.StoreOutcome.Stored;
import vestibule.dicom.service.StoreOutcome.StoredChanged;
import vestibule.dicom.service.StoreOutcome.Unknown;

/**
 * Sends objects to be stored (PS3.4 B, C-STORE). An object travels in the transfer syntax of its file, byte for byte, or not at all.
 */
public final class StorageUser {

    /** Departures that make the bytes of a file something else than a data set in the declared transfer syntax. */
    private static final Set<ReadNote.Kind> NOT_AS_DECLARED = EnumSet.of(
            ReadNote.Kind.OTHER_ENCODING,
            ReadNote.Kind.NO_TRANSFER_SYNTAX,
            ReadNote.Kind.UNKNOWN_TRANSFER_SYNTAX,
            ReadNote.Kind.TRAILING_BYTES);

    private final Association association;
    private final UnaryOperator<Command> origin;

    /** A user of that association. */
    public StorageUser(Association association) {
        this(association, UnaryOperator.identity());
    }

    /** A user that says for which C-MOVE it sends (PS3.7 9.1.1.1). */
    StorageUser(Association association, AeTitle moveOriginator, int moveMessageId) {
        this(association, request -> request.movedFor(moveOriginator, moveMessageId));
    }

    private StorageUser(Association association, UnaryOperator<Command> origin) {
        this.association = association;
        this.origin = origin;
    }

    /** What to propose for these files: one context for each SOP class and transfer syntax among them, one transfer syntax each. */
    public static List<ProposedContext> proposals(Collection<DicomFile> files) {
        return files.stream()
                .flatMap(file -> file.sopClass().stream()
                        .map(sopClass -> ProposedContext.of(
                                sopClass, file.transferSyntax().uid())))
                .distinct()
                .toList();
    }

    /** Sends a file's object. */
    public StoreOutcome store(DicomFile file) {
        Optional<Uid> sopClass = file.sopClass();
        Optional<Uid> sopInstance = file.sopInstance();
        if (sopClass.isEmpty() || sopInstance.isEmpty()) {
            return notSent("the file has no SOP Class UID or no SOP Instance UID, without which nothing is stored");
        }
        Optional<ReadNote> departure = file.notes().stream()
                .filter(note -> NOT_AS_DECLARED.contains(note.kind()))
                .findFirst();
        if (departure.isPresent()) {
            return notSent(
                    "the file is not encoded as it declares (%s), and is not re-encoded to be sent; have it written again"
                            .formatted(departure.get().detail()));
        }
        return store(sopClass.get(), sopInstance.get(), file.transferSyntax().uid(), file.encodedDataSet());
    }

    /**
     * Sends an object.
     *
     * @param sopClass its SOP class
     * @param sopInstance its SOP instance
     * @param transferSyntax the transfer syntax of the bytes
     * @param dataSet the encoded data set
     */
    public StoreOutcome store(Uid sopClass, Uid sopInstance, Uid transferSyntax, Bulk dataSet) {
        Optional<NegotiatedContext> context = association.accepted(sopClass, transferSyntax);
        if (context.isEmpty()) {
            return notSent(Contexts.notAccepted(association, sopClass, transferSyntax));
        }
        if (!association.isOpen()) {
            return notSent("the association has ended; open a new one");
        }
        if (dataSet.length() == 0 || (dataSet.length() & 1) != 0) {
            return notSent("a data set of %d bytes cannot travel, its length must be even and above zero"
                    .formatted(dataSet.length()));
        }
        Command request = origin.apply(Command.store(association.nextMessageId(), sopClass, sopInstance));
        return exchange(context.get(), request, dataSet);
    }

    private StoreOutcome exchange(NegotiatedContext context, Command request, Bulk dataSet) {
        try {
            association.send(context, request, dataSet);
            Message answer = association.answerTo(request);
            return outcome(answer.command());
        } catch (AssociationException.SourceLost e) {
            return notSent(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            return new Unknown(e);
        }
    }

    private static StoreOutcome outcome(Command answer) {
        Status status = Status.of(Status.Service.C_STORE, answer.status());
        return switch (status.category()) {
            case SUCCESS -> new Stored(status.code());
            case WARNING -> new StoredChanged(status.code(), answer.comment());
            case FAILURE, CANCEL, PENDING -> new Refused(status.code(), answer.comment(), status.retry());
        };
    }

    private NotSent notSent(String reason) {
        return new NotSent(reason, Contexts.accepted(association));
    }
}
