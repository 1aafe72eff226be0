package vestibule.dicom.service;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.ProposedContext;

/**
 * Asks an archive to commit itself to keeping objects (PS3.4 J, N-ACTION). That the request was done means only that it was received: the
 * commitment is the report, which comes on this association or on one that the archive opens later.
 */
public final class CommitmentUser {

    private static final int REQUEST_COMMITMENT = 1;

    private final Association association;
    private final Deque<CommitmentReport> reports = new ArrayDeque<>();
    private final CommitmentReceiver.Handler handler;

    /** A user of that association; reports that come on it meanwhile are kept for {@link #awaitReport}. */
    public CommitmentUser(Association association) {
        this(association, (report, from) -> {});
    }

    /** A user of that association; reports that come on it go to the handler first, and success is answered only after it has kept them. */
    public CommitmentUser(Association association, CommitmentReceiver.Handler handler) {
        this.association = association;
        this.handler = handler;
        association.onRequest(this::take);
    }

    /** What to propose for it. */
    public static ProposedContext proposal() {
        return ProposedContext.of(Uids.STORAGE_COMMITMENT_PUSH_MODEL, Uids.IMPLICIT_VR_LITTLE_ENDIAN);
    }

    /** Asks. */
    public OperationOutcome request(CommitmentRequest request) {
        return NormalizedExchange.run(
                association,
                Status.Service.N_ACTION,
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                messageId -> Command.action(
                        messageId,
                        Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                        Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE,
                        REQUEST_COMMITMENT),
                request.toDataSet());
    }

    /**
     * Waits for a report on this association.
     *
     * @param allowed how long
     * @return empty if none came; the association still stands, and the report may come on another one
     * @throws IOException if the association ended; the report may come on another one
     */
    public Optional<CommitmentReport> awaitReport(Duration allowed) throws IOException {
        long end = System.nanoTime() + allowed.toNanos();
        while (reports.isEmpty()) {
            Duration left = Duration.ofNanos(Math.max(0, end - System.nanoTime()));
            if (!association.awaitIncoming(left)) {
                return Optional.empty();
            }
            Optional<Message> message = association.receive();
            if (message.isEmpty()) {
                return Optional.empty();
            }
            take(association, message.get());
        }
        return Optional.of(reports.remove());
    }

    private void take(Association on, Message message) throws IOException {
        if (message.command().field() != CommandField.N_EVENT_REPORT_RQ
                || !message.context().accepts(Uids.STORAGE_COMMITMENT_PUSH_MODEL)) {
            throw violation(on, message);
        }
        CommitmentReceiver.take(
                on,
                message,
                (report, from) -> {
                    handler.report(report, from);
                    reports.add(report);
                },
                on.peer().called());
    }

    private static AssociationException violation(Association on, Message message) {
        return on.violation(message.command().field() + " came where a commitment report was expected");
    }
}
