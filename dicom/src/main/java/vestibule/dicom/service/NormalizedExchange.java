package vestibule.dicom.service;

import java.io.EOFException;
import java.io.IOException;
import java.util.Optional;
import java.util.function.IntFunction;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.NegotiatedContext;

/** One normalized operation from request to answer (PS3.7 10.1). */
final class NormalizedExchange {

    private NormalizedExchange() {}

    /**
     * @param command makes the command set for a Message ID
     */
    static OperationOutcome run(
            Association association,
            Status.Service service,
            Uid sopClass,
            IntFunction<Command> command,
            DataSet dataSet) {
        try {
            Sent sent = send(association, sopClass, command, dataSet);
            return sent.request().isPresent()
                    ? outcome(
                            service, association.answerTo(sent.request().get()).command())
                    : new OperationOutcome.NotSent(sent.problem());
        } catch (IOException e) {
            return new OperationOutcome.Unknown(e);
        }
    }

    /** Hears what an operation came to. */
    interface Outcome {
        void is(OperationOutcome outcome) throws IOException;
    }

    /** Begins an operation; the outcome is told when the answer has come, while requests of the peer go on being served. */
    static void begin(
            Association association,
            Status.Service service,
            Uid sopClass,
            IntFunction<Command> command,
            DataSet dataSet,
            Outcome later)
            throws IOException {
        Sent sent;
        try {
            sent = send(association, sopClass, command, dataSet);
        } catch (IOException e) {
            later.is(new OperationOutcome.Unknown(e));
            return;
        }
        if (sent.request().isEmpty()) {
            later.is(new OperationOutcome.NotSent(sent.problem()));
            return;
        }
        association.answerLater(
                sent.request().get(),
                answer -> later.is(
                        answer.isPresent()
                                ? outcome(service, answer.get())
                                : new OperationOutcome.Unknown(
                                        new EOFException("the association ended before the answer"))));
    }

    /** A request that was sent, or why it was not. */
    private record Sent(Optional<Command> request, String problem) {}

    private static Sent send(Association association, Uid sopClass, IntFunction<Command> command, DataSet dataSet)
            throws IOException {
        Optional<NegotiatedContext> context = association.accepted(sopClass);
        if (context.isEmpty()) {
            return new Sent(Optional.empty(), Contexts.notAccepted(association, sopClass));
        }
        if (!association.isOpen()) {
            return new Sent(Optional.empty(), "the association has ended; open a new one");
        }
        Command request = command.apply(association.nextMessageId());
        try {
            association.send(context.get(), request, dataSet);
            return new Sent(Optional.of(request), "");
        } catch (DicomFormatException e) {
            return new Sent(Optional.empty(), String.valueOf(e.getMessage()));
        }
    }

    private static OperationOutcome outcome(Status.Service service, Command answer) {
        Status status = Status.of(service, answer.status());
        return status.isDone()
                ? new OperationOutcome.Done(status)
                : new OperationOutcome.Refused(status, answer.comment());
    }
}
