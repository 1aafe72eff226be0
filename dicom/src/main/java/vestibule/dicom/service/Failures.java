package vestibule.dicom.service;

import java.io.IOException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Message;

/**
 * With which statuses the providers of a kind of service answer where they cannot do what is asked. Whatever goes wrong in their work becomes
 * an answer, and the association goes on; only what is wrong with the association ends it.
 *
 * @param notUnderstood for a data set that is none
 * @param notKept for what cannot be read or written on our side
 * @param fault for a fault of ours
 * @param notKeptComment the Error Comment beside {@code notKept}
 */
record Failures(int notUnderstood, int notKept, int fault, String notKeptComment) {

    private static final Logger LOG = LoggerFactory.getLogger(Failures.class);

    /** Storage (PS3.4 B.2.3). */
    static final Failures OF_STORAGE = new Failures(
            Status.UNABLE_TO_PROCESS,
            Status.OUT_OF_RESOURCES,
            Status.PROCESSING_FAILURE,
            "the object could not be written to disk");

    /** Queries and retrieves (PS3.4 C.4). */
    static final Failures OF_QUERIES =
            new Failures(Status.UNABLE_TO_PROCESS, Status.UNABLE_TO_PROCESS, Status.UNABLE_TO_PROCESS, "");

    /** Normalized operations (PS3.7 10.1). */
    static final Failures OF_NORMALIZED_OPERATIONS =
            new Failures(Status.UNSUITABLE_ARGUMENT, Status.PROCESSING_FAILURE, Status.PROCESSING_FAILURE, "");

    /** What is to be done for a request; it sends the last answer itself unless it throws. */
    interface Work {
        void run() throws IOException, RefusedException;
    }

    /** Does it, or answers why not. */
    void answered(Association association, Message request, Work work) throws IOException {
        try {
            work.run();
        } catch (RefusedException e) {
            ServiceProvider.refuse(association, request, e);
        } catch (AssociationException e) {
            throw e;
        } catch (DicomFormatException e) {
            LOG.warn("{} was not understood: {}", request.command(), e.getMessage());
            ServiceProvider.answer(association, request, notUnderstood, "a data set cannot be read or written");
        } catch (IOException e) {
            LOG.error("{} could not be done: {}", request.command(), e.toString());
            ServiceProvider.answer(association, request, notKept, notKeptComment);
        } catch (RuntimeException e) {
            LOG.error("{} was not done by a fault of ours", request.command(), e);
            ServiceProvider.answer(association, request, fault, "");
        }
    }
}
