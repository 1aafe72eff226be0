package vestibule.dicom.service;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/** Services offered together, found by SOP class; what none of them serves is not negotiated. */
public final class ServiceProvider implements AssociationListener.Server {

    private static final Logger LOG = LoggerFactory.getLogger(ServiceProvider.class);

    private final List<ProvidedService> services;
    private final Map<Uid, ProvidedService> bySopClass = new HashMap<>();

    /** @throws IllegalArgumentException if two services serve the same SOP class */
    public ServiceProvider(List<ProvidedService> services) {
        this.services = List.copyOf(services);
        for (ProvidedService service : services) {
            for (SupportedContext context : service.contexts()) {
                if (bySopClass.put(context.abstractSyntax(), service) != null) {
                    throw new IllegalArgumentException("two services serve " + context.abstractSyntax());
                }
            }
        }
    }

    /** What all services take together. */
    public List<SupportedContext> contexts() {
        return services.stream().flatMap(service -> service.contexts().stream()).toList();
    }

    /**
     * Starts to listen.
     *
     * @param address where; port 0 for any free one, the loopback address unless others are to be served
     * @param settings whom to serve; their contexts are replaced by those of the services
     */
    public AssociationListener listen(InetSocketAddress address, AcceptorSettings settings) throws IOException {
        return AssociationListener.open(address, settings.withContexts(contexts()), this);
    }

    @Override
    public void serve(Association association) throws IOException {
        try {
            Optional<Message> next = association.receive();
            while (next.isPresent()) {
                handle(association, next.get());
                next = association.isOpen() ? association.receive() : Optional.empty();
            }
        } finally {
            association.endAnswers();
        }
    }

    private void handle(Association association, Message request) throws IOException {
        if (association.isHandedOn(request)) {
            return;
        }
        CommandField field = request.command().field();
        if (field == CommandField.C_CANCEL_RQ) {
            LOG.debug("a C-CANCEL came after the operation had ended");
            return;
        }
        if (field.isResponse()) {
            throw association.violation(field + " came, and nothing was asked");
        }
        ProvidedService service =
                request.context().abstractSyntax().map(bySopClass::get).orElse(null);
        if (service == null) {
            throw new IllegalStateException("a presentation context was accepted that no service serves");
        }
        service.handle(association, request);
    }

    /** Answers with a status and no data set. */
    static void answer(Association association, Message request, int status, String comment) throws IOException {
        Command answer = request.command().response(status, false);
        association.send(request.context(), comment.isEmpty() ? answer : answer.withComment(comment));
    }

    /** Answers an operation that a service does not have. */
    static void unrecognized(Association association, Message request) throws IOException {
        answer(association, request, Status.UNRECOGNIZED_OPERATION, "this service does not have that operation");
    }
}
