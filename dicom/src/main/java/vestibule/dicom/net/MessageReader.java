package vestibule.dicom.net;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.WritableByteChannel;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.pdu.Pdu;

/** Puts messages together from fragments (PS3.7 6.3.1, PS3.8 E). Data sets are handed on fragment by fragment and never collected here. */
final class MessageReader {

    /** Command sets have a few hundred bytes. */
    private static final int LONGEST_COMMAND = 1 << 16;

    private final UpperLayer upper;
    private final Deadlines deadlines;
    private final Map<Integer, NegotiatedContext> contexts;
    private final Deque<Pdu.Pdv> fragments = new ArrayDeque<>();
    private @Nullable NegotiatedContext dataSetContext;
    private @Nullable Deadline whole;

    MessageReader(UpperLayer upper, Deadlines deadlines, Map<Integer, NegotiatedContext> acceptedContexts) {
        this.upper = upper;
        this.deadlines = deadlines;
        this.contexts = Map.copyOf(acceptedContexts);
    }

    /** Whether something of another message is here, without waiting. */
    boolean hasMore() throws IOException {
        return !fragments.isEmpty() || upper.stream().hasMore();
    }

    /** Waits until something of another message is here; false if nothing came in time, which changes nothing. */
    boolean awaitMore(Deadline deadline) throws AssociationException {
        return !fragments.isEmpty() || upper.awaitMore(deadline);
    }

    /**
     * Waits for a command set. What is left of an earlier data set is read over.
     *
     * @return empty if the peer wants to release
     */
    Optional<Message> message(String awaited, Duration allowed) throws AssociationException {
        if (dataSetContext != null) {
            skipDataSet();
        }
        whole = null;
        ByteArrayOutputStream command = new ByteArrayOutputStream();
        Optional<Pdu.Pdv> value = fragment(awaited, allowed);
        if (value.isEmpty()) {
            return Optional.empty();
        }
        whole = Deadline.after(deadlines.transfer());
        Pdu.Pdv part = value.get();
        NegotiatedContext context = contextOf(part);
        while (true) {
            check(part, context, true);
            append(command, part);
            if (part.last()) {
                return Optional.of(complete(context, command.toByteArray()));
            }
            part = rest();
        }
    }

    private void append(ByteArrayOutputStream command, Pdu.Pdv part) throws AssociationException {
        byte[] bytes = new byte[part.fragment().remaining()];
        part.fragment().get(bytes);
        command.writeBytes(bytes);
        if (command.size() > LONGEST_COMMAND) {
            throw upper.violation("a command set of more than %d bytes came".formatted(LONGEST_COMMAND), null);
        }
    }

    private Message complete(NegotiatedContext context, byte[] bytes) throws AssociationException {
        try {
            Command command = Command.received(DataSetCodec.decode(bytes, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN));
            if (command.hasDataSet()) {
                dataSetContext = context;
            }
            return new Message(context, command);
        } catch (IOException e) {
            throw upper.violation("a command set is not made as PS3.7 says: " + e.getMessage(), e);
        }
    }

    /**
     * Hands the data set of the last message to a sink, as it arrives.
     *
     * @param sink where the bytes go; if it fails, the rest is still read, so that the message can be answered
     * @param limit how many bytes the sink gets at most
     * @return how many bytes the data set has
     * @throws AssociationException if the association is at fault; any other exception is the sink's
     */
    long dataSet(WritableByteChannel sink, long limit) throws IOException {
        NegotiatedContext context = dataSetContext;
        if (context == null) {
            throw new IllegalStateException("the last message has no data set, or it has been taken");
        }
        IOException sinkFailure = null;
        long length = 0;
        boolean last = false;
        while (!last) {
            Pdu.Pdv part = rest();
            check(part, context, false);
            int size = part.fragment().remaining();
            if (sinkFailure == null && length + size <= limit) {
                sinkFailure = pass(part, sink);
            }
            length += size;
            last = part.last();
        }
        dataSetContext = null;
        if (sinkFailure != null) {
            throw sinkFailure;
        }
        return length;
    }

    private static @Nullable IOException pass(Pdu.Pdv part, WritableByteChannel sink) {
        try {
            while (part.fragment().hasRemaining()) {
                sink.write(part.fragment());
            }
            return null;
        } catch (IOException e) {
            return e;
        }
    }

    private void skipDataSet() throws AssociationException {
        NegotiatedContext context = dataSetContext;
        boolean last = false;
        while (!last && context != null) {
            Pdu.Pdv part = rest();
            check(part, context, false);
            last = part.last();
        }
        dataSetContext = null;
    }

    private NegotiatedContext contextOf(Pdu.Pdv part) throws AssociationException {
        NegotiatedContext context = contexts.get(part.contextId());
        if (context == null) {
            throw upper.violation(
                    "a message came on presentation context %d, which was not accepted".formatted(part.contextId()),
                    null);
        }
        return context;
    }

    /** All fragments of a message are on one context, the command set first (PS3.7 6.3.1; PS3.8 E.2). */
    private void check(Pdu.Pdv part, NegotiatedContext context, boolean command) throws AssociationException {
        if (part.contextId() != context.id()) {
            throw upper.violation(
                    "a message that began on presentation context %d went on on %d"
                            .formatted(context.id(), part.contextId()),
                    null);
        }
        if (part.command() != command) {
            throw upper.violation(
                    command
                            ? "a fragment of a data set came where a command set was expected"
                            : "a fragment of a command set came where a data set was expected",
                    null);
        }
    }

    private Pdu.Pdv rest() throws AssociationException {
        return fragment("the rest of a message", deadlines.stall())
                .orElseThrow(() -> upper.violation("a release came in the middle of a message", null));
    }

    private Optional<Pdu.Pdv> fragment(String awaited, Duration allowed) throws AssociationException {
        while (fragments.isEmpty()) {
            Deadline first = Deadline.after(allowed);
            Deadline end = whole;
            Pdu pdu = upper.receive(end == null ? first : first.earlier(end), end, awaited, allowed);
            if (!(pdu instanceof Pdu.PData data)) {
                return Optional.empty();
            }
            fragments.addAll(data.values());
        }
        return Optional.of(fragments.remove());
    }
}
