package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.SupportedContext;

/**
 * Sends objects to a third party whose title the requestor names (PS3.4 C.4.2, C-MOVE), on an association of its own. Where to find that
 * party is known here and never taken from the request. An object travels in the transfer syntax of its file or counts as failed.
 */
public final class MoveProvider implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(MoveProvider.class);

    /** Knows the parties that objects may be sent to. */
    public interface Destinations {
        /** Where that party is; empty if nothing may be sent there. */
        Optional<ApplicationEntity> find(AeTitle title);
    }

    private final QueryLevel.Model model;
    private final RetrieveProvider.Handler handler;
    private final Destinations destinations;
    private final Deadlines deadlines;

    /**
     * @param model whose C-MOVE is served
     * @param handler finds the files, asked by several threads
     * @param destinations knows the parties, asked by several threads
     * @param deadlines how long each wait for such a party may last
     */
    public MoveProvider(
            QueryLevel.Model model, RetrieveProvider.Handler handler, Destinations destinations, Deadlines deadlines) {
        this.model = model;
        this.handler = handler;
        this.destinations = destinations;
        this.deadlines = deadlines;
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(model.move(), Contexts.WITHOUT_PIXELS));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.C_MOVE_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        Failures.OF_QUERIES.answered(association, request, () -> {
            DataSet identifier = ServiceProvider.identifier(association, request);
            ApplicationEntity destination = request.command()
                    .moveDestination()
                    .flatMap(destinations::find)
                    .orElseThrow(() -> new RefusedException(
                            Status.MOVE_DESTINATION_UNKNOWN, "the move destination is not known here"));
            List<Path> files = handler.find(identifier, association.peer().calling());
            try (Sending sending = new Sending(association, request, destination, files)) {
                new Suboperations(association, request, files, sending).run();
            }
        });
    }

    /** The association with the destination, opened when the first object is to go; what happens to it is no matter of the one that asks. */
    private final class Sending implements Suboperations.Delivery, AutoCloseable {

        private final Association asking;
        private final Message request;
        private final ApplicationEntity destination;
        private final List<Path> files;
        private @Nullable Association association;
        private String refusal = "";

        Sending(Association asking, Message request, ApplicationEntity destination, List<Path> files) {
            this.asking = asking;
            this.request = request;
            this.destination = destination;
            this.files = files;
        }

        @Override
        public StoreOutcome store(DicomFile file) {
            Association open = association;
            if (open == null && refusal.isEmpty()) {
                open = open();
                association = open;
            }
            if (open == null) {
                return new StoreOutcome.NotSent(refusal, List.of());
            }
            return StorageUser.moving(
                            open, asking.peer().calling(), request.command().messageId())
                    .store(file);
        }

        private @Nullable Association open() {
            try {
                return Association.open(
                        AssociationRequest.of(asking.peer().called(), proposals()), destination, deadlines);
            } catch (AssociationException e) {
                LOG.warn("nothing can be moved: {}", e.getMessage());
                refusal = String.valueOf(e.getMessage());
                return null;
            }
        }

        /** As many contexts as an association proposes; an object beyond them counts as failed. */
        private List<ProposedContext> proposals() {
            Set<ProposedContext> proposals = new LinkedHashSet<>();
            for (Path path : files) {
                try {
                    proposals.addAll(StorageUser.proposals(List.of(DicomFile.read(path))));
                } catch (IOException e) {
                    LOG.debug("an object that cannot be read asks for no context", e);
                }
            }
            return proposals.stream().limit(ProposedContext.MOST).toList();
        }

        @Override
        public void close() {
            Association open = association;
            if (open != null) {
                open.close();
            }
        }
    }
}
