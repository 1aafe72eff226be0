package vestibule.dicom.service;

import java.io.IOException;
import java.time.Duration;

/** What became of a C-ECHO (PS3.4 A). */
public sealed interface EchoOutcome {

    /**
     * The peer answered.
     *
     * @param roundTrip from the request to the answer
     */
    record Alive(Duration roundTrip) implements EchoOutcome {}

    /**
     * The peer answered with something else than success.
     *
     * @param status what it answered
     * @param comment its Error Comment, may be empty
     */
    record Refused(Status status, String comment) implements EchoOutcome {}

    /**
     * The peer does not accept the service.
     *
     * @param reason why, and what to do, in a sentence
     */
    record NotSent(String reason) implements EchoOutcome {}

    /**
     * No answer came.
     *
     * @param cause what happened instead
     */
    record Unknown(IOException cause) implements EchoOutcome {}
}
