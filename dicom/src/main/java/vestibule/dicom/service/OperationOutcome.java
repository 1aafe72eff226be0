package vestibule.dicom.service;

import java.io.IOException;

/** What became of a normalized operation: N-ACTION, N-CREATE, N-SET, or the notification N-EVENT-REPORT (PS3.7 10.1). */
public sealed interface OperationOutcome {

    /**
     * The peer did it.
     *
     * @param status success, or a warning
     */
    record Done(Status status) implements OperationOutcome {}

    /**
     * The peer did not do it.
     *
     * @param status why
     * @param comment the peer's Error Comment, may be empty
     */
    record Refused(Status status, String comment) implements OperationOutcome {}

    /**
     * It was not sent.
     *
     * @param reason why, and what to do, in a sentence
     */
    record NotSent(String reason) implements OperationOutcome {}

    /**
     * Bytes went out and no answer came: the peer may have done it or not.
     *
     * @param cause what happened instead of an answer
     */
    record Unknown(IOException cause) implements OperationOutcome {}
}
