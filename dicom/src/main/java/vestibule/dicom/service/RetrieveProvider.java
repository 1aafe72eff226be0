package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.RoleSelection;
import vestibule.dicom.net.SupportedContext;

/**
 * Gives objects back on the association that asks for them (PS3.4 C.4.3, C-GET). The storage beside it must be offered
 * {@linkplain StorageProvider#givingBack both ways}. An object travels in the transfer syntax of its file or counts as failed.
 */
public final class RetrieveProvider implements ProvidedService {

    /** Finds the files of what is asked for, by C-GET or C-MOVE. */
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
        return Answering.plain(model.get());
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        Answering.identified(association, request, CommandField.C_GET_RQ, identifier -> {
            List<Path> files = handler.find(identifier, association.peer().calling());
            Suboperations suboperations = new Suboperations(association, request, files);
            association.onRequest(suboperations.cancellation());
            suboperations.run(file -> giveBack(association, file));
        });
    }

    private static StoreOutcome giveBack(Association association, DicomFile file) throws IOException {
        if (!isAgreed(association, file)) {
            return new StoreOutcome.NotSent("the requestor did not take the provider's role", List.of());
        }
        StoreOutcome outcome = new StorageUser(association).store(file);
        if (outcome instanceof StoreOutcome.Unknown unknown) {
            throw unknown.cause();
        }
        return outcome;
    }

    /** Without role selection the requestor cannot be sent anything (PS3.7 D.3.3.4). */
    private static boolean isAgreed(Association association, DicomFile file) {
        Optional<Uid> sopClass = file.sopClass();
        return association.roles().stream()
                .filter(RoleSelection::provider)
                .anyMatch(role -> sopClass.filter(role.sopClass()::equals).isPresent());
    }
}
