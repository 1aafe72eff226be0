package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/**
 * Receives commitment reports on associations that an archive opens, in the role of user there (PS3.4 J.3.3). Offered alone it is the
 * commitment listener of a practice: nobody can store to it or ask it anything.
 */
public final class CommitmentReceiver implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(CommitmentReceiver.class);

    /** A report of a few hundred bytes for each of some ten thousand objects. */
    private static final int LONGEST_REPORT = 16 << 20;

    /** Keeps reports. */
    public interface Handler {
        /**
         * Keeps a report; success is answered only after it returns.
         *
         * @param report what the archive says
         * @param from the archive's AE title
         * @throws RefusedException if it is not taken, for one because nobody asked
         * @throws IOException if it cannot be kept; the archive is told so and may try again
         */
        void report(CommitmentReport report, AeTitle from) throws RefusedException, IOException;
    }

    private final Handler handler;

    /** A receiver that hands reports to that handler, from several threads. */
    public CommitmentReceiver(Handler handler) {
        this.handler = handler;
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(new SupportedContext(
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN),
                false,
                true));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.N_EVENT_REPORT_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        take(association, request, handler, association.peer().calling());
    }

    /** Reads a report, has it kept, and answers. */
    static void take(Association association, Message request, Handler handler, AeTitle from) throws IOException {
        int status = Status.SUCCESS;
        String comment = "";
        try {
            handler.report(read(association, request), from);
        } catch (RefusedException e) {
            status = e.status();
            comment = e.comment();
        } catch (AssociationException e) {
            throw e;
        } catch (DicomFormatException e) {
            LOG.warn("a commitment report from {} was not understood: {}", from, e.getMessage());
            status = Status.UNSUITABLE_ARGUMENT;
            comment = "the report was not understood";
        } catch (IOException | RuntimeException e) {
            LOG.error("a commitment report from {} could not be kept", from, e);
            status = Status.PROCESSING_FAILURE;
        }
        ServiceProvider.answer(association, request, status, comment);
    }

    private static CommitmentReport read(Association association, Message request)
            throws IOException, RefusedException {
        long type =
                request.command().elements().integer(Attributes.EVENT_TYPE_ID).orElse(0L);
        if (type != CommitmentReport.ALL_COMMITTED && type != CommitmentReport.FAILURES_EXIST) {
            throw new RefusedException(Status.NO_SUCH_EVENT_TYPE, "event types 1 and 2 are known");
        }
        if (!request.command().hasDataSet()) {
            throw new DicomFormatException("a commitment report without event information");
        }
        CommitmentReport report = CommitmentReport.of(association.receiveDataSet(request, LONGEST_REPORT));
        if (type == CommitmentReport.ALL_COMMITTED && !report.failed().isEmpty()) {
            throw new DicomFormatException("a report of event type 1, all committed, that names failures");
        }
        return report;
    }
}
