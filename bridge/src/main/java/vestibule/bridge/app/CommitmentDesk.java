package vestibule.bridge.app;

import java.io.IOException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.outbox.Commitments;
import vestibule.bridge.outbox.Commitments.Failed;
import vestibule.bridge.outbox.Commitments.Reference;
import vestibule.bridge.outbox.Commitments.Refusal;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.RefusedException;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.Status;

/** Takes commitment reports, on whichever association they come; success is answered only once they are recorded. */
final class CommitmentDesk implements CommitmentReceiver.Handler {

    private static final Logger LOG = LoggerFactory.getLogger(CommitmentDesk.class);

    private final Commitments commitments;
    private final Runnable told;

    /**
     * @param told is run after each report that was recorded
     */
    CommitmentDesk(Commitments commitments, Runnable told) {
        this.commitments = commitments;
        this.told = told;
    }

    @Override
    public void report(CommitmentReport report, AeTitle from) throws RefusedException, IOException {
        Commitments.Taken taken = commitments.report(
                report.transaction().value(),
                from.value(),
                report.committed().stream().map(CommitmentDesk::reference).toList(),
                report.failed().stream()
                        .map(failure ->
                                new Failed(reference(failure.object()), refusal(failure.reason()), failure.words()))
                        .toList());
        if (taken == Commitments.Taken.UNKNOWN) {
            LOG.warn("a commitment report from {} names a transaction that nobody asked it for", from);
            throw new RefusedException(Status.UNSUITABLE_ARGUMENT, "nobody asked under this Transaction UID");
        }
        LOG.info(
                "commitment report from {}: {} committed, {} not ({})",
                from,
                report.committed().size(),
                report.failed().size(),
                taken);
        told.run();
    }

    private static Reference reference(SopReference object) {
        return new Reference(object.sopInstance().value(), object.sopClass().value());
    }

    /** What a Failure Reason (0008,1197) comes to (PS3.3 C.14.1.1). */
    static Refusal refusal(int reason) {
        return switch (reason) {
            case Status.NO_SUCH_SOP_INSTANCE -> Refusal.ABSENT;
            case Status.CLASS_INSTANCE_CONFLICT, Status.SOP_CLASS_NOT_SUPPORTED -> Refusal.NEVER;
            default -> Refusal.LATER;
        };
    }
}
