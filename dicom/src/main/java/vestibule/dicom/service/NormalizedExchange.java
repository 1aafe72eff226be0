package vestibule.dicom.service;

import java.io.IOException;
import java.util.Optional;
import java.util.function.IntFunction;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;
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
        Optional<NegotiatedContext> context = association.accepted(sopClass);
        if (context.isEmpty()) {
            return new OperationOutcome.NotSent(Contexts.notAccepted(association, sopClass));
        }
        if (!association.isOpen()) {
            return new OperationOutcome.NotSent("the association has ended; open a new one");
        }
        Command request = command.apply(association.nextMessageId());
        try {
            association.send(context.get(), request, dataSet);
            Message answer = association.answerTo(request);
            Status status = Status.of(service, answer.command().status());
            return status.isDone()
                    ? new OperationOutcome.Done(status)
                    : new OperationOutcome.Refused(status, answer.command().comment());
        } catch (DicomFormatException e) {
            return new OperationOutcome.NotSent(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            return new OperationOutcome.Unknown(e);
        }
    }
}
