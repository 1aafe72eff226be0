package vestibule.dicom.service;

import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.ProposedContext;

/** Tells a practice system what is being done and what was done (PS3.4 F.7, N-CREATE and N-SET of Modality Performed Procedure Step). */
public final class PerformedStepUser {

    private final Association association;

    /** A user of that association. */
    public PerformedStepUser(Association association) {
        this.association = association;
    }

    /** What to propose for it. */
    public static ProposedContext proposal() {
        return ProposedContext.of(Uids.MODALITY_PERFORMED_PROCEDURE_STEP, Uids.IMPLICIT_VR_LITTLE_ENDIAN);
    }

    /**
     * Says that a step has begun.
     *
     * @param step the SOP Instance UID of the step, chosen by us
     * @param attributes those of PS3.4 Table F.7.2-1 for N-CREATE, the status being IN PROGRESS
     */
    public OperationOutcome create(Uid step, DataSet attributes) {
        return NormalizedExchange.run(
                association,
                Status.Service.N_CREATE,
                Uids.MODALITY_PERFORMED_PROCEDURE_STEP,
                messageId -> Command.create(messageId, Uids.MODALITY_PERFORMED_PROCEDURE_STEP, step),
                QueryKeys.withCharacterSet(attributes));
    }

    /**
     * Changes a step, or ends it: after COMPLETED or DISCONTINUED nothing can be changed any more.
     *
     * @param step the SOP Instance UID of the step
     * @param changes those of PS3.4 Table F.7.2-1 for N-SET
     */
    public OperationOutcome set(Uid step, DataSet changes) {
        return NormalizedExchange.run(
                association,
                Status.Service.N_SET,
                Uids.MODALITY_PERFORMED_PROCEDURE_STEP,
                messageId -> Command.set(messageId, Uids.MODALITY_PERFORMED_PROCEDURE_STEP, step),
                QueryKeys.withCharacterSet(changes));
    }
}
