package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;

/** The C-STOREs of one C-GET or C-MOVE, with a pending answer after each (PS3.4 C.4.2.3, C.4.3.3). */
final class Suboperations {

    private static final Logger LOG = LoggerFactory.getLogger(Suboperations.class);

    /** Where the objects go. */
    interface Delivery {
        /**
         * Sends one.
         *
         * @throws IOException if the association that asks has ended
         */
        StoreOutcome store(DicomFile file) throws IOException;
    }

    private final Association asking;
    private final Message request;
    private final List<Path> files;
    private final Delivery delivery;
    private final List<String> failed = new ArrayList<>();
    private int completed;
    private int failures;
    private int warnings;
    private boolean cancelled;

    Suboperations(Association asking, Message request, List<Path> files, Delivery delivery) {
        this.asking = asking;
        this.request = request;
        this.files = files;
        this.delivery = delivery;
    }

    /** Does all of them, or those before a C-CANCEL, and answers. */
    void run() throws IOException {
        asking.onRequest((on, message) -> take(message));
        Iterator<Path> each = files.iterator();
        while (each.hasNext() && !isCancelled()) {
            store(each.next());
            if (each.hasNext() && !cancelled) {
                asking.send(request.context(), counted(request.command().response(Status.PENDING, false), remaining()));
            }
        }
        answer();
    }

    private void take(Message message) throws IOException {
        Command command = message.command();
        if (command.field() != CommandField.C_CANCEL_RQ) {
            throw asking.violation(command.field() + " came in the middle of an operation");
        }
        cancelled |= command.respondedTo() == request.command().messageId();
    }

    private boolean isCancelled() throws IOException {
        cancelled |= ServiceProvider.isCancelled(asking, request);
        return cancelled;
    }

    private void store(Path path) throws IOException {
        DicomFile file;
        try {
            file = DicomFile.read(path);
        } catch (IOException e) {
            LOG.warn("an object cannot be given out: {}", e.getMessage());
            failures++;
            return;
        }
        StoreOutcome outcome = delivery.store(file);
        if (outcome instanceof StoreOutcome.Stored) {
            completed++;
        } else if (outcome instanceof StoreOutcome.StoredChanged) {
            warnings++;
        } else {
            LOG.debug("an object was not given out: {}", outcome);
            failures++;
            file.sopInstance().ifPresent(instance -> failed.add(instance.value()));
        }
    }

    private int remaining() {
        return files.size() - completed - failures - warnings;
    }

    private void answer() throws IOException {
        int status = Status.SUCCESS;
        if (cancelled && remaining() > 0) {
            status = Status.CANCELLED;
        } else if (failures > 0 && failures == files.size()) {
            status = Status.SUBOPERATIONS_NOT_POSSIBLE;
        } else if (failures + warnings > 0) {
            status = Status.SUBOPERATIONS_WITH_FAILURES;
        }
        boolean list = !failed.isEmpty();
        Command answer =
                counted(request.command().response(status, list), status == Status.CANCELLED ? remaining() : -1);
        if (list) {
            DataSet identifier = DataSet.builder()
                    .put(Attributes.FAILED_SOP_INSTANCE_UID_LIST, failed.toArray(String[]::new))
                    .build();
            asking.send(request.context(), answer, identifier);
        } else {
            asking.send(request.context(), answer);
        }
    }

    private Command counted(Command answer, int remaining) {
        return answer.withSuboperations(remaining, completed, failures, warnings);
    }
}
