package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import vestibule.dicom.net.NegotiatedContext;

/** What became of an object that was to be stored (PS3.4 B.2.3). */
public sealed interface StoreOutcome {

    /**
     * The peer has stored it.
     *
     * @param status the status, 0000
     */
    record Stored(int status) implements StoreOutcome {}

    /**
     * The peer has stored it and says that it changed something, or that something does not fit.
     *
     * @param status a status of the warning class
     * @param comment the peer's Error Comment, may be empty
     */
    record StoredChanged(int status, String comment) implements StoreOutcome {}

    /**
     * The peer has not stored it.
     *
     * @param status a status of the failure class
     * @param comment the peer's Error Comment, may be empty
     * @param retry whether the same object may be taken later without any change
     */
    record Refused(int status, String comment, boolean retry) implements StoreOutcome {}

    /**
     * It was not sent, or not to its end, so that the peer cannot have it.
     *
     * @param reason what stood in the way and what to do, in a sentence
     * @param accepted the presentation contexts the peer accepts
     */
    record NotSent(String reason, List<NegotiatedContext> accepted) implements StoreOutcome {
        public NotSent {
            accepted = List.copyOf(accepted);
        }
    }

    /**
     * Bytes went out and no answer came: the peer may have it or not. To be sent again under the same SOP Instance UID, or asked for.
     *
     * @param cause what happened instead of an answer
     */
    record Unknown(IOException cause) implements StoreOutcome {}
}
