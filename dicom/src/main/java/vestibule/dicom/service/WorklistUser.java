package vestibule.dicom.service;

import java.time.Duration;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.ProposedContext;

/** Asks a practice system what is scheduled (PS3.4 K.4.1, C-FIND of Modality Worklist). */
public final class WorklistUser {

    private final Association association;

    /** A user of that association. */
    public WorklistUser(Association association) {
        this.association = association;
    }

    /** What to propose for it. */
    public static ProposedContext proposal() {
        return QueryUser.proposal(Uids.MODALITY_WORKLIST_INFORMATION_MODEL_FIND);
    }

    /**
     * Asks.
     *
     * @param keys what to match and, without a value, what to return (PS3.4 Table K.6-1); the scheduled procedure step is one item of its
     *     sequence
     * @param maximum how many matches are wanted at most; beyond it the query is cancelled
     * @param allowed how long it may take in all
     */
    public QueryOutcome find(DataSet keys, int maximum, Duration allowed) {
        return new FindExchange(association, Uids.MODALITY_WORKLIST_INFORMATION_MODEL_FIND, maximum, allowed).run(keys);
    }
}
