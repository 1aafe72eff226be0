package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.RoleSelection;
import vestibule.dicom.net.SupportedContext;

/**
 * Gives objects back on the association that asks for them (PS3.4 C.4.3, C-GET). The storage beside it must be offered
 * {@linkplain StorageProvider#givingBack both ways}. An object travels in the transfer syntax of its file or counts as failed.
 */
public final class RetrieveProvider implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(RetrieveProvider.class);
    private static final int LONGEST_IDENTIFIER = 1 << 20;

    /** Finds the files of what is asked for. */
    public interface Handler {
        /**
         * Finds them.
         *
         * @param identifier the level and the unique keys, as they came
         * @param calling who asks
         * @return the files, in the order in which they are to be sent
         * @throws RefusedException if the retrieve is not served
         * @throws IOException if the files cannot be listed; the answer is then “unable to process”
         */
        List<Path> find(DataSet identifier, AeTitle calling) throws RefusedException, IOException;
    }

    private final QueryLevel.Model model;
    private final Handler handler;

    /**
     * @param model whose C-GET is served
     * @param handler finds the files, asked by several threads
     */
    public RetrieveProvider(QueryLevel.Model model, Handler handler) {
        this.model = model;
        this.handler = handler;
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(
                model.get(), List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.C_GET_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        int status;
        String comment = "";
        try {
            new Suboperations(association, request, find(association, request)).run();
            return;
        } catch (RefusedException e) {
            status = e.status();
            comment = e.comment();
        } catch (AssociationException e) {
            throw e;
        } catch (DicomFormatException e) {
            LOG.warn("a retrieve could not be understood: {}", e.getMessage());
            status = Status.UNABLE_TO_PROCESS;
            comment = "the identifier cannot be read";
        } catch (IOException | RuntimeException e) {
            LOG.error("a retrieve ended by a fault of ours", e);
            status = Status.UNABLE_TO_PROCESS;
        }
        ServiceProvider.answer(association, request, status, comment);
    }

    private List<Path> find(Association association, Message request) throws IOException, RefusedException {
        if (!request.command().hasDataSet()) {
            throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "C-GET without an identifier");
        }
        DataSet identifier = association.receiveDataSet(request, LONGEST_IDENTIFIER);
        return handler.find(identifier, association.peer().calling());
    }

    /** The C-STOREs of one C-GET, with a pending answer after each (PS3.4 C.4.3.3). */
    private static final class Suboperations {

        private final Association association;
        private final Message request;
        private final List<Path> files;
        private final List<String> failed = new ArrayList<>();
        private int completed;
        private int failures;
        private int warnings;
        private boolean cancelled;

        Suboperations(Association association, Message request, List<Path> files) {
            this.association = association;
            this.request = request;
            this.files = files;
        }

        void run() throws IOException {
            association.onRequest((on, message) -> take(message));
            Iterator<Path> each = files.iterator();
            while (each.hasNext() && !isCancelled()) {
                store(each.next());
                if (each.hasNext() && !cancelled) {
                    association.send(
                            request.context(), counted(request.command().response(Status.PENDING, false), remaining()));
                }
            }
            answer();
        }

        private void take(Message message) throws IOException {
            Command command = message.command();
            if (command.field() != CommandField.C_CANCEL_RQ) {
                throw association.violation(command.field() + " came in the middle of an operation");
            }
            cancelled |= command.respondedTo() == request.command().messageId();
        }

        private boolean isCancelled() throws IOException {
            cancelled |= QueryProvider.isCancelled(association, request);
            return cancelled;
        }

        private void store(Path path) throws IOException {
            DicomFile file;
            try {
                file = DicomFile.read(path);
            } catch (IOException e) {
                LOG.warn("an object cannot be given back: {}", e.getMessage());
                failures++;
                return;
            }
            StoreOutcome outcome = isAgreed(file)
                    ? new StorageUser(association).store(file)
                    : new StoreOutcome.NotSent("the requestor did not take the provider's role", List.of());
            if (outcome instanceof StoreOutcome.Unknown unknown) {
                throw unknown.cause();
            }
            count(outcome, file);
        }

        private void count(StoreOutcome outcome, DicomFile file) {
            if (outcome instanceof StoreOutcome.Stored) {
                completed++;
            } else if (outcome instanceof StoreOutcome.StoredChanged) {
                warnings++;
            } else {
                LOG.debug("an object was not given back: {}", outcome);
                failures++;
                file.sopInstance().ifPresent(instance -> failed.add(instance.value()));
            }
        }

        /** Without role selection the requestor cannot be sent anything (PS3.7 D.3.3.4). */
        private boolean isAgreed(DicomFile file) {
            Optional<Uid> sopClass = file.sopClass();
            return association.roles().stream()
                    .filter(RoleSelection::provider)
                    .anyMatch(role -> sopClass.filter(role.sopClass()::equals).isPresent());
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
                association.send(request.context(), answer, identifier);
            } else {
                association.send(request.context(), answer);
            }
        }

        private Command counted(Command answer, int remaining) {
            return answer.withSuboperations(remaining, completed, failures, warnings);
        }
    }
}
