package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.net.Command;

/** What became of a retrieve, C-GET or C-MOVE (PS3.4 C.4.2, C.4.3). */
public sealed interface RetrieveOutcome {

    /**
     * Counts of sub-operations, as the peer gives them; 0 where it gives none.
     *
     * @param completed done
     * @param failed not done
     * @param warning done with a warning
     */
    record Counts(long completed, long failed, long warning) {

        static final Counts NONE = new Counts(0, 0, 0);

        static Counts of(Command answer) {
            DataSet elements = answer.elements();
            return new Counts(
                    elements.integer(Attributes.NUMBER_OF_COMPLETED_SUBOPERATIONS)
                            .orElse(0L),
                    elements.integer(Attributes.NUMBER_OF_FAILED_SUBOPERATIONS).orElse(0L),
                    elements.integer(Attributes.NUMBER_OF_WARNING_SUBOPERATIONS).orElse(0L));
        }
    }

    /**
     * All sub-operations are done, and none failed.
     *
     * @param counts of the last answer
     */
    record Done(Counts counts) implements RetrieveOutcome {}

    /**
     * The sub-operations are over, and some failed or ended with a warning.
     *
     * @param counts of the last answer
     * @param failed the SOP instances that failed, as far as the peer names them (PS3.4 C.4.2.1.4.2)
     */
    record DoneInPart(Counts counts, List<Uid> failed) implements RetrieveOutcome {
        public DoneInPart {
            failed = List.copyOf(failed);
        }
    }

    /**
     * The peer refused or gave up.
     *
     * @param status why
     * @param comment its Error Comment, may be empty
     * @param counts of the last answer
     */
    record Refused(Status status, String comment, Counts counts) implements RetrieveOutcome {}

    /**
     * It was not asked for.
     *
     * @param reason why, and what to do, in a sentence
     */
    record NotSent(String reason) implements RetrieveOutcome {}

    /**
     * The last answer never came.
     *
     * @param cause what happened
     * @param counts of the last answer that came
     */
    record Unknown(IOException cause, Counts counts) implements RetrieveOutcome {}
}
