package vestibule.dicom.net;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.channels.WritableByteChannel;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;

/**
 * An established association and the messages on it (PS3.8 7, PS3.7 6.3). It exists only once negotiation has succeeded. Used by one thread
 * at a time; one operation is outstanding at a time, which is the asynchronous operations window 1/1 (PS3.7 D.3.3.3). Closing releases it in
 * order where that is possible, else aborts it.
 */
public final class Association implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Association.class);
    private static final int LAST_MESSAGE_ID = 0xFFFF;

    /** A request of the peer that comes while we wait for the answer to ours. */
    public interface RequestHandler {
        /** Takes the request and answers it on the association it came on. */
        void handle(Association association, Message request) throws IOException;
    }

    /** Hears what became of a request of ours that was sent without waiting for its answer. */
    public interface AnswerHandler {
        /** The answer has come; empty if the association ended before. */
        void answered(Optional<Command> answer) throws IOException;
    }

    private record Awaited(Command request, AnswerHandler handler) {}

    private final UpperLayer upper;
    private final MessageWriter writer;
    private final MessageReader reader;
    private final Deadlines deadlines;
    private final List<NegotiatedContext> contexts;
    private final List<RoleSelection> roles;
    private final PeerFacts peer;
    private final Map<Integer, Awaited> awaited = new LinkedHashMap<>();
    private int lastMessageId;
    private RequestHandler requests = (association, request) -> {
        throw association.violation(request.command().field() + " came, which was not expected here");
    };

    Association(
            UpperLayer upper,
            Deadlines deadlines,
            List<NegotiatedContext> contexts,
            List<RoleSelection> roles,
            PeerFacts peer) {
        this.upper = upper;
        this.deadlines = deadlines;
        this.contexts = List.copyOf(contexts);
        this.roles = List.copyOf(roles);
        this.peer = peer;
        this.writer = new MessageWriter(upper.stream(), peer.maximumPduLength());
        Map<Integer, NegotiatedContext> accepted = contexts.stream()
                .filter(NegotiatedContext::isAccepted)
                .collect(Collectors.toMap(NegotiatedContext::id, Function.identity()));
        this.reader = new MessageReader(upper, deadlines, accepted);
    }

    /**
     * Opens an association.
     *
     * @param request what is asked for
     * @param peer whom to call
     * @param deadlines how long each wait may last
     * @throws AssociationException if there is none in the end; its message says why and, where that is known, what to change
     */
    public static Association open(AssociationRequest request, ApplicationEntity peer, Deadlines deadlines)
            throws AssociationException {
        return open(request, peer, deadlines, Progress.UNHEARD);
    }

    /** Opens an association as {@link #open(AssociationRequest, ApplicationEntity, Deadlines)} does, and tells how far it has come. */
    public static Association open(
            AssociationRequest request, ApplicationEntity peer, Deadlines deadlines, Progress progress)
            throws AssociationException {
        Transport transport = Connector.connect(peer, deadlines, progress);
        try {
            return Requestor.negotiate(transport, request, peer, deadlines);
        } catch (AssociationException | RuntimeException e) {
            transport.close();
            throw e;
        }
    }

    /** What is known of the peer. */
    public PeerFacts peer() {
        return peer;
    }

    /** All presentation contexts, accepted or not, in the order they were proposed. */
    public List<NegotiatedContext> contexts() {
        return contexts;
    }

    /** The first accepted context of a SOP class. */
    public Optional<NegotiatedContext> accepted(Uid sopClass) {
        return contexts.stream().filter(context -> context.accepts(sopClass)).findFirst();
    }

    /** The accepted context of a SOP class in a transfer syntax. */
    public Optional<NegotiatedContext> accepted(Uid sopClass, Uid transferSyntax) {
        return contexts.stream()
                .filter(context -> context.accepts(sopClass)
                        && context.transferSyntax()
                                .filter(transferSyntax::equals)
                                .isPresent())
                .findFirst();
    }

    /** The roles agreed on; for a SOP class without an entry the requestor is user, the acceptor provider. */
    public List<RoleSelection> roles() {
        return roles;
    }

    /** Whether messages can travel. */
    public boolean isOpen() {
        return upper.isEstablished();
    }

    /** A Message ID that no outstanding operation has (PS3.7 9.1). */
    public int nextMessageId() {
        lastMessageId = lastMessageId == LAST_MESSAGE_ID ? 1 : lastMessageId + 1;
        return lastMessageId;
    }

    /** What to do with requests of the peer that come while an answer is awaited; without this they abort the association. */
    public void onRequest(RequestHandler handler) {
        requests = handler;
    }

    /** Sends a message without a data set. */
    public void send(NegotiatedContext context, Command command) throws AssociationException {
        byte[] bytes = encoded(command);
        upper.send(deadline -> writer.write(context.id(), bytes, deadline));
        LOG.debug("{}: sent {}", upper.peer(), command);
    }

    /**
     * Sends a message with a data set, which goes from where it is to the socket without being held in memory.
     *
     * @param dataSet its bytes in the context's transfer syntax
     */
    public void send(NegotiatedContext context, Command command, Bulk dataSet) throws AssociationException {
        byte[] bytes = encoded(command);
        upper.send(deadline -> writer.write(context.id(), bytes, dataSet, deadline));
        LOG.debug("{}: sent {} with {}", upper.peer(), command, dataSet);
    }

    /**
     * Sends a message with a small data set, as queries and notifications have.
     *
     * @throws vestibule.dicom.io.DicomFormatException if a value cannot be written; nothing has been sent then
     */
    public void send(NegotiatedContext context, Command command, DataSet dataSet) throws IOException {
        Bulk bytes = Bulk.of(DataSetCodec.encode(dataSet, syntax(context), DataSetCodec.Strictness.QUERY));
        send(context, command, bytes);
    }

    private static byte[] encoded(Command command) {
        try {
            return DataSetCodec.encode(
                    command.elements(), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
        } catch (IOException e) {
            throw new IllegalArgumentException("a command set that cannot be written: " + e.getMessage(), e);
        }
    }

    private static TransferSyntax syntax(NegotiatedContext context) {
        return context.transferSyntax()
                .flatMap(TransferSyntax::of)
                .orElseThrow(() -> new IllegalArgumentException(
                        "presentation context %d has no transfer syntax we know".formatted(context.id())));
    }

    /**
     * Waits for the answer to a request; requests of the peer that come first go to the {@linkplain #onRequest handler}.
     *
     * @throws AssociationException if none comes in time, or the association ends
     */
    public Message answerTo(Command request) throws IOException {
        while (true) {
            Message message = reader.message("the answer to " + request.field(), deadlines.response())
                    .orElseThrow(this::releasedEarly);
            LOG.debug("{}: received {}", upper.peer(), message.command());
            Command command = message.command();
            if (isHandedOn(message)) {
                continue;
            }
            if (!command.field().isResponse()) {
                requests.handle(this, message);
            } else if (command.field() == request.field().response() && command.respondedTo() == request.messageId()) {
                return message;
            } else {
                throw violation("%s came, which answers nothing that is outstanding".formatted(command));
            }
        }
    }

    /**
     * Has the answer to a request that was sent handed to that handler when it comes. Meanwhile requests of the peer are served, for each
     * side may have an operation outstanding, and theirs may cross ours on the way.
     */
    public void answerLater(Command request, AnswerHandler handler) {
        awaited.put(request.messageId(), new Awaited(request, handler));
    }

    /** Whether a message is an answer that {@linkplain #answerLater was left for later}; its handler has it then, and it is done with. */
    public boolean isHandedOn(Message message) throws IOException {
        Command command = message.command();
        if (!command.field().isResponse()) {
            return false;
        }
        Awaited one = awaited.get(command.respondedTo());
        if (one == null || command.field() != one.request().field().response()) {
            return false;
        }
        awaited.remove(command.respondedTo());
        one.handler().answered(Optional.of(command));
        return true;
    }

    /** Tells those who were left to hear an answer later that none comes any more. */
    public void endAnswers() {
        List<Awaited> left = List.copyOf(awaited.values());
        awaited.clear();
        for (Awaited one : left) {
            try {
                one.handler().answered(Optional.empty());
            } catch (IOException e) {
                LOG.warn("{}: what became of {} could not be kept", upper.peer(), one.request(), e);
            }
        }
    }

    private AssociationException releasedEarly() {
        try {
            upper.answerRelease();
        } catch (AssociationException e) {
            return e;
        }
        return new AssociationException.ConnectionLost(
                upper.peer(), "it released the association while an answer was awaited", null);
    }

    /**
     * Waits for the next message, under the deadline for idle associations.
     *
     * @return empty if the peer released the association, which is then closed
     */
    public Optional<Message> receive() throws AssociationException {
        return receive(deadlines.idle());
    }

    /** Waits that long for the next message; empty if the peer released the association, which is then closed. */
    public Optional<Message> receive(Duration allowed) throws AssociationException {
        Optional<Message> message = reader.message("a message", allowed);
        if (message.isEmpty()) {
            upper.answerRelease();
        }
        message.ifPresent(some -> LOG.debug("{}: received {}", upper.peer(), some.command()));
        return message;
    }

    /** Waits that long until something of a message has come; false if nothing came, and the association still stands. */
    public boolean awaitIncoming(Duration allowed) throws AssociationException {
        return reader.awaitMore(Deadline.after(allowed));
    }

    /** Whether something of a message has come, without waiting. */
    public boolean hasIncoming() throws IOException {
        return reader.hasMore();
    }

    /**
     * Takes the data set of the last message into memory and reads it.
     *
     * @param limit how many bytes it may have
     * @throws vestibule.dicom.io.DicomFormatException if it is longer, or no data set; the association still stands
     */
    public DataSet receiveDataSet(Message message, int limit) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (WritableByteChannel sink = Channels.newChannel(bytes)) {
            long length = receiveDataSet(sink, limit);
            if (length > limit) {
                throw new vestibule.dicom.io.DicomFormatException(
                        "a data set of %d bytes where at most %d are taken".formatted(length, limit));
            }
        }
        return DataSetCodec.decode(bytes.toByteArray(), syntax(message.context()));
    }

    /**
     * Passes the data set of the last message to a sink as it arrives.
     *
     * @param sink where the bytes go; if it fails, the rest is read over and its exception thrown at the end
     * @param limit how many bytes the sink gets at most; the rest is read over
     * @return how many bytes the data set has, more than {@code limit} if the sink did not get all
     * @throws AssociationException if the association is at fault
     */
    public long receiveDataSet(WritableByteChannel sink, long limit) throws IOException {
        return reader.dataSet(sink, limit);
    }

    /** Aborts because the peer did what the protocol does not allow; the exception is to be thrown. */
    public AssociationException violation(String found) {
        return upper.violation(found, null);
    }

    /** Releases in order and closes (PS3.8 7.2). */
    public void release() throws AssociationException {
        if (!upper.isClosed()) {
            upper.release();
        }
    }

    /** Aborts and closes (PS3.8 7.3). */
    public void abort() {
        upper.abort();
        upper.stream().transport().close();
    }

    /** Releases if the association stands, and closes in any case. */
    @Override
    public void close() {
        try {
            if (upper.isEstablished()) {
                upper.release();
            }
        } catch (AssociationException e) {
            LOG.debug("{}: the release failed", upper.peer(), e);
        } finally {
            upper.stream().transport().close();
        }
    }
}
