package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/**
 * How a provider answers when the work of a request does not succeed: a refusal by its status, bad data and faults of ours each by one
 * status of the service. What breaks the association is passed on.
 *
 * @param notUnderstood the status for data that cannot be read or written
 * @param fault the status for a fault of ours
 */
record Answering(int notUnderstood, int fault) {

    /** Queries and retrieves (PS3.4 C.4.1.1.4, C.4.2.1.5). */
    static final Answering QUERY = new Answering(Status.UNABLE_TO_PROCESS, Status.UNABLE_TO_PROCESS);

    /** Normalized operations (PS3.7 10.1). */
    static final Answering NORMALIZED = new Answering(Status.UNSUITABLE_ARGUMENT, Status.PROCESSING_FAILURE);

    static final int LONGEST_IDENTIFIER = 1 << 20;

    private static final Logger LOG = LoggerFactory.getLogger(Answering.class);

    /** What a request asks for. */
    interface Work<T> {
        T run() throws RefusedException, IOException;
    }

    /** The work of a query or a retrieve, which gives the answers itself. */
    interface IdentifiedWork {
        void run(DataSet identifier) throws RefusedException, IOException;
    }

    /** A SOP class whose data sets are plain. */
    static List<SupportedContext> plain(Uid sopClass) {
        return List.of(SupportedContext.provider(
                sopClass, List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    }

    /**
     * Does the work.
     *
     * @return what came of it; empty if it did not succeed, and the request is answered
     * @throws AssociationException if the association cannot go on
     */
    <T> Optional<T> attempt(Association association, Message request, Work<T> work) throws IOException {
        int status;
        String comment = "";
        try {
            return Optional.of(work.run());
        } catch (RefusedException e) {
            Command answer = request.command().response(e.status(), false).withComment(e.comment());
            association.send(
                    request.context(),
                    e.errorId().isPresent() ? answer.withErrorId(e.errorId().getAsInt()) : answer);
            return Optional.empty();
        } catch (AssociationException e) {
            throw e;
        } catch (DicomFormatException e) {
            LOG.warn("{} was not understood: {}", request.command().field(), e.getMessage());
            status = notUnderstood;
            comment = "the data set cannot be read or written";
        } catch (IOException | RuntimeException e) {
            LOG.error("{} ended by a fault of ours", request.command().field(), e);
            status = fault;
        }
        ServiceProvider.answer(association, request, status, comment);
        return Optional.empty();
    }

    /** Reads the identifier of the one operation that a query or retrieve service has, and does its work. */
    static void identified(Association association, Message request, CommandField operation, IdentifiedWork work)
            throws IOException {
        if (request.command().field() != operation) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        QUERY.attempt(association, request, () -> {
            if (!request.command().hasDataSet()) {
                throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, operation + " without an identifier");
            }
            work.run(association.receiveDataSet(request, LONGEST_IDENTIFIER));
            return request;
        });
    }
}
