package vestibule.dicom.service;

import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/** Answers queries of one SOP class, be it query and retrieve or worklist (PS3.4 C.4.1, K.4.1; C-FIND). */
public final class QueryProvider implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(QueryProvider.class);
    private static final int LONGEST_IDENTIFIER = 1 << 20;

    /** Finds matches. */
    public interface Handler {
        /**
         * Finds the matches of an identifier.
         *
         * @param identifier the keys, as they came
         * @param calling who asks
         * @throws RefusedException if the query is not served
         * @throws IOException if the matches cannot be read; the answer is then “unable to process”
         */
        Answer find(DataSet identifier, AeTitle calling) throws RefusedException, IOException;
    }

    /**
     * The matches of a query.
     *
     * @param matches each an identifier to return; taken one at a time, closed at the end
     * @param everyKeySupported whether each optional key was matched or returned like a required one
     */
    public record Answer(Stream<DataSet> matches, boolean everyKeySupported) {}

    private final Uid sopClass;
    private final Handler handler;

    /**
     * @param sopClass a SOP class of C-FIND
     * @param handler finds the matches
     */
    public QueryProvider(Uid sopClass, Handler handler) {
        this.sopClass = sopClass;
        this.handler = handler;
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(
                sopClass, List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.C_FIND_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        int status = Status.SUCCESS;
        String comment = "";
        try {
            status = find(association, request);
        } catch (RefusedException e) {
            status = e.status();
            comment = e.comment();
        } catch (AssociationException e) {
            throw e;
        } catch (DicomFormatException e) {
            LOG.warn("a query could not be processed: {}", e.getMessage());
            status = Status.UNABLE_TO_PROCESS;
            comment = "an identifier cannot be read or written";
        } catch (IOException | RuntimeException e) {
            LOG.error("a query ended by a fault of ours", e);
            status = Status.UNABLE_TO_PROCESS;
        }
        ServiceProvider.answer(association, request, status, comment);
    }

    private int find(Association association, Message request) throws IOException, RefusedException {
        if (!request.command().hasDataSet()) {
            throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "C-FIND without an identifier");
        }
        DataSet identifier = association.receiveDataSet(request, LONGEST_IDENTIFIER);
        Answer answer = handler.find(identifier, association.peer().calling());
        int pending = answer.everyKeySupported() ? Status.PENDING : Status.PENDING_WITHOUT_SOME_KEYS;
        try (Stream<DataSet> matches = answer.matches()) {
            for (Iterator<DataSet> each = matches.iterator(); each.hasNext(); ) {
                if (isCancelled(association, request)) {
                    return Status.CANCELLED;
                }
                DataSet match = QueryKeys.withCharacterSet(each.next());
                association.send(request.context(), request.command().response(pending, true), match);
            }
        }
        return Status.SUCCESS;
    }

    /** Only a C-CANCEL for this query may come while it is being answered, for one operation is outstanding at a time. */
    static boolean isCancelled(Association association, Message request) throws IOException {
        if (!association.hasIncoming()) {
            return false;
        }
        Optional<Message> message = association.receive();
        if (message.isEmpty()) {
            throw association.violation("a release came in the middle of an operation");
        }
        boolean cancels = message.get().command().field() == CommandField.C_CANCEL_RQ;
        if (!cancels) {
            throw association.violation(message.get().command().field() + " came in the middle of an operation");
        }
        return message.get().command().respondedTo() == request.command().messageId();
    }
}
