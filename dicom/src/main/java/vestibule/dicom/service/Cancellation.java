package vestibule.dicom.service;

import java.io.IOException;
import java.util.Optional;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;

/**
 * Whether the requestor has taken its request back (C-CANCEL, PS3.7 9.3.2.3). While a request is being answered nothing else may come, for
 * one operation is outstanding at a time, except the answer to a request of ours.
 */
final class Cancellation implements Association.RequestHandler {

    private final Association association;
    private final int messageId;
    private boolean heard;

    Cancellation(Association association, Message request) {
        this.association = association;
        this.messageId = request.command().messageId();
    }

    /** Whether it has come by now, without waiting. */
    boolean isHeard() throws IOException {
        if (association.hasIncoming()) {
            Optional<Message> message = association.receive();
            if (message.isEmpty()) {
                throw association.violation("a release came in the middle of an operation");
            }
            handle(association, message.get());
        }
        return heard;
    }

    /** Takes what came while the answer to a request of ours was awaited. */
    @Override
    public void handle(Association on, Message message) throws IOException {
        if (on.isHandedOn(message)) {
            return;
        }
        CommandField field = message.command().field();
        if (field != CommandField.C_CANCEL_RQ) {
            throw on.violation(field + " came in the middle of an operation");
        }
        heard |= message.command().respondedTo() == messageId;
    }
}
