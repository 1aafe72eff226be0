package vestibule.dicom.service;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/** Takes commitment requests (PS3.4 J.3.2, N-ACTION); the report follows on the same association, or later by a {@link CommitmentReporter}. */
public final class CommitmentProvider implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(CommitmentProvider.class);
    private static final int REQUEST_COMMITMENT = 1;
    private static final int LONGEST_REQUEST = 16 << 20;

    /** A caller that asks on and answers no report is no archive's partner; what waits for it is held in memory. */
    private static final int MOST_WAITING = 64;

    /** Decides what is kept. */
    public interface Handler {
        /**
         * Takes a request.
         *
         * @param request what is asked
         * @param calling who asks
         * @return the report to give at once, on the same association; empty if it is to come later on another one
         * @throws RefusedException if the request is not taken; there will be no report then
         */
        Optional<CommitmentReport> request(CommitmentRequest request, AeTitle calling) throws RefusedException;

        /**
         * Hears what became of a report that was given at once; without being heard there is nothing to do.
         *
         * @param report the report
         * @param outcome whether it arrived; if not, it may be delivered on another association
         */
        default void reported(CommitmentReport report, OperationOutcome outcome) {
            LOG.debug("commitment report {}: {}", report.transaction(), outcome);
        }
    }

    private final Handler handler;

    /** What is being reported on each association, the one that is out first. */
    private final Map<Association, Deque<CommitmentReport>> reports = new ConcurrentHashMap<>();

    /** A provider that asks that handler, from several threads. */
    public CommitmentProvider(Handler handler) {
        this.handler = handler;
    }

    @Override
    public List<SupportedContext> contexts() {
        return Answering.plain(Uids.STORAGE_COMMITMENT_PUSH_MODEL);
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.N_ACTION_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        Optional<Optional<CommitmentReport>> taken =
                Answering.NORMALIZED.attempt(association, request, () -> take(association, request));
        if (taken.isPresent()) {
            ServiceProvider.answer(association, request, Status.SUCCESS, "");
            if (taken.get().isPresent()) {
                report(association, taken.get().get());
            }
        }
    }

    /** One report after the other, for one operation is outstanding at a time; requests of the peer may cross it. */
    private void report(Association association, CommitmentReport report) throws IOException {
        Deque<CommitmentReport> waiting = reports.computeIfAbsent(association, any -> new ArrayDeque<>());
        if (waiting.size() == MOST_WAITING) {
            throw association.violation("%d commitment reports are left unanswered".formatted(MOST_WAITING));
        }
        waiting.add(report);
        if (waiting.size() == 1) {
            begin(association, waiting);
        }
    }

    private void begin(Association association, Deque<CommitmentReport> waiting) throws IOException {
        CommitmentReporter.begin(association, waiting.element(), outcome -> {
            handler.reported(waiting.remove(), outcome);
            if (outcome instanceof OperationOutcome.Unknown) {
                waiting.forEach(left ->
                        handler.reported(left, new OperationOutcome.NotSent("the association ended before its turn")));
                waiting.clear();
            }
            if (waiting.isEmpty()) {
                reports.remove(association);
            } else {
                begin(association, waiting);
            }
        });
    }

    private Optional<CommitmentReport> take(Association association, Message request)
            throws IOException, RefusedException {
        long type =
                request.command().elements().integer(Attributes.ACTION_TYPE_ID).orElse(0L);
        if (type != REQUEST_COMMITMENT) {
            throw new RefusedException(Status.NO_SUCH_ACTION_TYPE, "action type 1 is known");
        }
        boolean wellKnown = request.command()
                .sopInstance()
                .filter(Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE::equals)
                .isPresent();
        if (!wellKnown) {
            throw new RefusedException(Status.NO_SUCH_SOP_INSTANCE, "not the well-known SOP instance");
        }
        if (!request.command().hasDataSet()) {
            throw new DicomFormatException("a commitment request without action information");
        }
        CommitmentRequest wanted = CommitmentRequest.of(association.receiveDataSet(request, LONGEST_REQUEST));
        return handler.request(wanted, association.peer().calling());
    }
}
