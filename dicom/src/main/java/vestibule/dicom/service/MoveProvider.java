package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.dict.Attributes;
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
 * Sends objects to another application entity on request (PS3.4 C.4.2, C-MOVE), on an association of its own for each request. Only
 * destinations that are known by title are served: the address never comes from the caller. An object travels in the transfer syntax of
 * its file or counts as failed.
 */
public final class MoveProvider implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(MoveProvider.class);

    /** Knows where application entities are found. */
    public interface AddressBook {
        /** The application entity of that title; empty if it is not known. */
        Optional<ApplicationEntity> find(AeTitle title);
    }

    private final QueryLevel.Model model;
    private final RetrieveProvider.Handler handler;
    private final AddressBook destinations;
    private final AeTitle own;
    private final Deadlines deadlines;

    /**
     * @param model whose C-MOVE is served
     * @param handler finds the files, asked by several threads
     * @param destinations where objects may be sent, asked by several threads
     * @param own the title under which destinations are called
     * @param deadlines how long each wait for a destination may last
     */
    public MoveProvider(
            QueryLevel.Model model,
            RetrieveProvider.Handler handler,
            AddressBook destinations,
            AeTitle own,
            Deadlines deadlines) {
        this.model = model;
        this.handler = handler;
        this.destinations = destinations;
        this.own = own;
        this.deadlines = deadlines;
    }

    @Override
    public List<SupportedContext> contexts() {
        return Answering.plain(model.move());
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        Answering.identified(association, request, CommandField.C_MOVE_RQ, identifier -> {
            ApplicationEntity destination = destination(request);
            List<Path> files = handler.find(identifier, association.peer().calling());
            Suboperations suboperations = new Suboperations(association, request, files);
            List<ProposedContext> contexts = contexts(files);
            if (contexts.isEmpty()) {
                suboperations.fail("no object can be read");
            } else {
                move(association, request, suboperations, AssociationRequest.of(own, contexts), destination);
            }
        });
    }

    private ApplicationEntity destination(Message request) throws RefusedException {
        return request.command()
                .elements()
                .text(Attributes.MOVE_DESTINATION)
                .flatMap(AeTitle::parse)
                .flatMap(destinations::find)
                .orElseThrow(() -> new RefusedException(
                        Status.MOVE_DESTINATION_UNKNOWN, "the move destination has no address here"));
    }

    /** What the files need, as far as one association can carry it; files are opened again one by one when they are sent. */
    private static List<ProposedContext> contexts(List<Path> files) {
        Set<ProposedContext> contexts = new LinkedHashSet<>();
        for (Path each : files) {
            Suboperations.read(each).ifPresent(file -> contexts.addAll(StorageUser.proposals(List.of(file))));
        }
        return contexts.stream().limit(ProposedContext.MOST).toList();
    }

    private void move(
            Association association,
            Message request,
            Suboperations suboperations,
            AssociationRequest wanted,
            ApplicationEntity destination)
            throws IOException {
        Association opened;
        try {
            opened = Association.open(wanted, destination, deadlines);
        } catch (AssociationException e) {
            LOG.warn("objects cannot be moved: {}", e.getMessage());
            suboperations.fail("no association with the move destination could be opened");
            return;
        }
        try (Association there = opened) {
            StorageUser user = new StorageUser(
                    there, association.peer().calling(), request.command().messageId());
            suboperations.run(user::store);
        }
    }
}
