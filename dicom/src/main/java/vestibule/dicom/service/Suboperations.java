package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;

/** The C-STOREs of one retrieve, counted in a pending answer after each but the last (PS3.4 C.4.2.3, C.4.3.3). */
final class Suboperations {

    private static final Logger LOG = LoggerFactory.getLogger(Suboperations.class);

    /** Where the objects go. */
    interface Sender {
        /**
         * Sends one.
         *
         * @throws IOException if the association that asked cannot go on
         */
        StoreOutcome store(DicomFile file) throws IOException;
    }

    private final Association association;
    private final Message request;
    private final List<Path> files;
    private final Cancellation cancellation;
    private final List<String> failed = new ArrayList<>();
    private int completed;
    private int failures;
    private int warnings;

    Suboperations(Association association, Message request, List<Path> files) {
        this.association = association;
        this.request = request;
        this.files = files;
        this.cancellation = new Cancellation(association, request);
    }

    /** Hears a C-CANCEL that comes while a sub-operation on the same association is under way. */
    Cancellation cancellation() {
        return cancellation;
    }

    /** Sends each object and gives the last answer. */
    void run(Sender sender) throws IOException {
        boolean cancelled = cancellation.isHeard();
        for (int i = 0; i < files.size() && !cancelled; i++) {
            store(files.get(i), sender);
            cancelled = cancellation.isHeard();
            if (i + 1 < files.size() && !cancelled) {
                association.send(
                        request.context(), counted(request.command().response(Status.PENDING, false), remaining()));
            }
        }
        answer(cancelled, "");
    }

    /** Counts each object as failed without sending any, and gives the last answer. */
    void fail(String why) throws IOException {
        for (Path each : files) {
            store(each, file -> new StoreOutcome.NotSent(why, List.of()));
        }
        answer(false, why);
    }

    private void store(Path path, Sender sender) throws IOException {
        Optional<DicomFile> file = read(path);
        if (file.isEmpty()) {
            failures++;
            return;
        }
        StoreOutcome outcome = sender.store(file.get());
        if (outcome instanceof StoreOutcome.Stored) {
            completed++;
        } else if (outcome instanceof StoreOutcome.StoredChanged) {
            warnings++;
        } else {
            LOG.debug("an object was not given: {}", outcome);
            failures++;
            file.get().sopInstance().ifPresent(instance -> failed.add(instance.value()));
        }
    }

    /** A file to give; empty if it cannot be read, which is then said in the log. */
    static Optional<DicomFile> read(Path path) {
        try {
            return Optional.of(DicomFile.read(path));
        } catch (IOException e) {
            LOG.warn("an object cannot be given: {}", e.getMessage());
            return Optional.empty();
        }
    }

    private int remaining() {
        return files.size() - completed - failures - warnings;
    }

    private void answer(boolean cancelled, String comment) throws IOException {
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
        if (!comment.isEmpty() && status != Status.SUCCESS) {
            answer = answer.withComment(comment);
        }
        if (list) {
            DataSet identifier = DataSet.builder()
                    .put(Attributes.FAILED_SOP_INSTANCE_UID_LIST, failed.toArray(String[]::new))
                    .build();
            association.send(request.context(), answer, identifier);
        } else {
            association.send(request.context(), answer);
        }
    }

    private Command counted(Command answer, int remaining) {
        return answer.withSuboperations(remaining, completed, failures, warnings);
    }
}
