package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.RoleSelection;

/** Delivers commitment reports, in the role of provider (PS3.4 J.3.3, N-EVENT-REPORT). */
public final class CommitmentReporter {

    private final AeTitle own;
    private final Deadlines deadlines;

    /**
     * @param own the title under which the request was received
     * @param deadlines how long each wait may last
     */
    public CommitmentReporter(AeTitle own, Deadlines deadlines) {
        this.own = own;
        this.deadlines = deadlines;
    }

    /** Delivers on an association of its own, proposing the role of provider for itself (PS3.4 J.3.3, PS3.7 D.3.3.4). */
    public OperationOutcome deliver(CommitmentReport report, ApplicationEntity to) {
        AssociationRequest request = AssociationRequest.of(own, List.of(CommitmentUser.proposal()))
                .withRoles(List.of(new RoleSelection(Uids.STORAGE_COMMITMENT_PUSH_MODEL, false, true)));
        try (Association association = Association.open(request, to, deadlines)) {
            return report(association, report);
        } catch (AssociationException e) {
            return new OperationOutcome.NotSent(String.valueOf(e.getMessage()));
        }
    }

    private static OperationOutcome report(Association association, CommitmentReport report) {
        return NormalizedExchange.run(
                association,
                Status.Service.N_EVENT_REPORT,
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                messageId -> command(messageId, report),
                report.toDataSet());
    }

    /** Begins to deliver on an association that stands, and goes on serving it until the answer comes. */
    static void begin(Association association, CommitmentReport report, NormalizedExchange.Outcome later)
            throws IOException {
        NormalizedExchange.begin(
                association,
                Status.Service.N_EVENT_REPORT,
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                messageId -> command(messageId, report),
                report.toDataSet(),
                later);
    }

    private static Command command(int messageId, CommitmentReport report) {
        return Command.eventReport(
                messageId,
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE,
                report.eventType());
    }
}
