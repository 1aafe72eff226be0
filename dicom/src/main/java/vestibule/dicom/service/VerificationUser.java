package vestibule.dicom.service;

import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ProposedContext;

/** Asks a peer whether it is there (PS3.4 A.4, C-ECHO). */
public final class VerificationUser {

    private final Association association;

    /** A user of that association. */
    public VerificationUser(Association association) {
        this.association = association;
    }

    /** What to propose for it. */
    public static ProposedContext proposal() {
        return ProposedContext.of(Uids.VERIFICATION, Uids.IMPLICIT_VR_LITTLE_ENDIAN);
    }

    /** Asks once. */
    public EchoOutcome echo() {
        Optional<NegotiatedContext> context = association.accepted(Uids.VERIFICATION);
        if (context.isEmpty()) {
            return new EchoOutcome.NotSent(Contexts.notAccepted(association, Uids.VERIFICATION));
        }
        Command request = Command.echo(association.nextMessageId(), Uids.VERIFICATION);
        long start = System.nanoTime();
        try {
            association.send(context.get(), request);
            Message answer = association.answerTo(request);
            Status status = Status.of(Status.Service.C_ECHO, answer.command().status());
            return status.isDone()
                    ? new EchoOutcome.Alive(Duration.ofNanos(System.nanoTime() - start))
                    : new EchoOutcome.Refused(status, answer.command().comment());
        } catch (IOException e) {
            return new EchoOutcome.Unknown(e);
        }
    }
}
