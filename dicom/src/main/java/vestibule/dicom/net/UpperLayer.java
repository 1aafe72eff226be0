package vestibule.dicom.net;

import java.io.EOFException;
import java.io.IOException;
import java.net.SocketTimeoutException;
import java.nio.file.FileSystemException;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AssociationException.Aborted;
import vestibule.dicom.net.AssociationException.ConnectionLost;
import vestibule.dicom.net.AssociationException.DeadlinePassed;
import vestibule.dicom.net.AssociationException.NotSecured;
import vestibule.dicom.net.AssociationException.ProtocolViolation;
import vestibule.dicom.net.AssociationException.Rejected;
import vestibule.dicom.net.AssociationException.SourceLost;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.tls.TlsException;
import vestibule.dicom.net.upper.Action;
import vestibule.dicom.net.upper.Effect;
import vestibule.dicom.net.upper.Event;
import vestibule.dicom.net.upper.State;
import vestibule.dicom.net.upper.StateTable;

/**
 * Drives the state table over a transport: turns PDUs, deadlines and local wishes into events, and carries the effects of the actions out
 * (PS3.8 9.2). Used by one thread.
 */
final class UpperLayer {

    private static final Logger LOG = LoggerFactory.getLogger(UpperLayer.class);

    /** An abort that explains a failed write has come already or never will. */
    private static final Duration LAST_WORDS = Duration.ofMillis(200);

    private final PduStream stream;
    private final boolean requestor;
    private final Deadlines deadlines;
    private final String peer;
    private State state;
    private AbortReason abortReason = AbortReason.NOT_SPECIFIED;
    private @Nullable Deadline artim;

    private UpperLayer(
            Transport transport, boolean requestor, State state, Deadlines deadlines, int maximumData, String peer) {
        this.stream = new PduStream(transport, deadlines, maximumData);
        this.requestor = requestor;
        this.state = state;
        this.deadlines = deadlines;
        this.peer = peer;
    }

    /** The side that asks, over a transport that has just been opened for it (action AE-1 is done). */
    static UpperLayer requestor(Transport transport, Deadlines deadlines, int maximumData, String peer) {
        return new UpperLayer(transport, true, State.STA4, deadlines, maximumData, peer);
    }

    /** The side that is asked. */
    static UpperLayer acceptor(Transport transport, Deadlines deadlines, int maximumData) {
        return new UpperLayer(
                transport, false, State.STA1, deadlines, maximumData, "the peer at " + transport.remote());
    }

    String peer() {
        return peer;
    }

    PduStream stream() {
        return stream;
    }

    boolean isEstablished() {
        return state == State.STA6;
    }

    boolean isClosed() {
        return state == State.STA1;
    }

    /** Asks for an association and waits for the answer (AE-2, AE-3, AE-4). */
    Pdu.AssociateAc request(Pdu.AssociateRq request) throws AssociationException {
        Deadline deadline = Deadline.after(deadlines.negotiation());
        locally(Event.EVT2, request);
        Pdu answer = next(deadline, deadline, "the answer to our association request", deadlines.negotiation());
        if (answer instanceof Pdu.AssociateAc accept) {
            return accept;
        }
        throw new AssertionError(answer);
    }

    /** Waits for an association request (AE-5, AE-6). */
    Pdu.AssociateRq awaitRequest() throws AssociationException {
        locally(Event.EVT5, null);
        Deadline timer = artim == null ? Deadline.after(deadlines.negotiation()) : artim;
        Pdu request = next(timer, timer, "an association request", deadlines.negotiation());
        if (request instanceof Pdu.AssociateRq wanted) {
            return wanted;
        }
        throw new AssertionError(request);
    }

    /** Accepts the request (AE-7). */
    void accept(Pdu.AssociateAc answer) throws AssociationException {
        locally(Event.EVT7, answer);
    }

    /** Rejects the request and waits for the peer to close (AE-8). */
    void reject(Rejection rejection) throws AssociationException {
        locally(Event.EVT8, new Pdu.AssociateRj(rejection.result(), rejection.source(), rejection.code()));
        settle();
    }

    /** What is to be sent as data while the association stands (DT-1, AR-7). */
    interface Sending {
        void send(Deadline deadline) throws IOException;
    }

    /** Sends data. */
    void send(Sending data) throws AssociationException {
        locally(Event.EVT9, null);
        try {
            data.send(Deadline.after(deadlines.transfer()));
        } catch (SocketTimeoutException e) {
            throw deadlinePassed("room for the next byte of our message", deadlines.stall(), e);
        } catch (EOFException | FileSystemException e) {
            // A file went away or became shorter while it was sent: what is on the wire cannot be taken back
            abortNow();
            throw new SourceLost(peer, e);
        } catch (IOException e) {
            throw afterFailedWrite(e);
        }
    }

    /**
     * Waits for data, or for the wish of the peer to release.
     *
     * @return A-RELEASE-RQ or P-DATA-TF
     */
    Pdu receive(Deadline first, @Nullable Deadline whole, String awaited, Duration allowed)
            throws AssociationException {
        requireOpen(Event.EVT10);
        return next(first, whole, awaited, allowed);
    }

    /** Waits until something comes from the peer; false if nothing came in time, and the association still stands. */
    boolean awaitMore(Deadline deadline) throws AssociationException {
        requireOpen(Event.EVT10);
        try {
            return stream.awaitMore(deadline);
        } catch (Transport.StoppedException e) {
            throw stopped(e);
        } catch (IOException e) {
            throw lost(e);
        }
    }

    private ConnectionLost stopped(Transport.StoppedException cause) {
        abort();
        return new ConnectionLost(peer, "we aborted the association because we are shutting down", cause);
    }

    /** Answers the peer's wish to release and waits for it to close (AR-4). */
    void answerRelease() throws AssociationException {
        locally(Event.EVT14, null);
        settle();
    }

    /** Releases in order, collisions included (AR-1, AR-3, AR-8 to AR-10). */
    void release() throws AssociationException {
        locally(Event.EVT11, null);
        Deadline deadline = Deadline.after(deadlines.close());
        while (state != State.STA1) {
            switch (state) {
                case STA7, STA10, STA11 -> next(deadline, deadline, "the answer to our release", deadlines.close());
                case STA9, STA12 -> locally(Event.EVT14, null);
                case STA13 -> settle();
                default -> throw new AssertionError(state);
            }
        }
    }

    /** Aborts, and gives the peer the time of the ARTIM timer to read it (AA-1). */
    void abort() {
        if (StateTable.action(state, Event.EVT15).isPresent()) {
            happen(Event.EVT15);
            settle();
        }
    }

    /** Aborts without waiting for anything. */
    private void abortNow() {
        if (StateTable.action(state, Event.EVT15).isPresent()) {
            happen(Event.EVT15);
        }
        if (state == State.STA13) {
            happen(Event.EVT18);
        }
    }

    /** Aborts because of something the protocol does not allow (AA-8), and says so. */
    ProtocolViolation violation(String found, @Nullable Throwable cause) {
        abortReason = AbortReason.UNSUITABLE_PARAMETER_VALUE;
        if (StateTable.action(state, Event.EVT19).isPresent()) {
            happen(Event.EVT19);
            settle();
        }
        return new ProtocolViolation(peer, found, cause);
    }

    private Pdu next(Deadline first, @Nullable Deadline whole, String awaited, Duration allowed)
            throws AssociationException {
        Pdu pdu;
        try {
            pdu = stream.read(first, whole);
        } catch (SocketTimeoutException e) {
            boolean partly = stream.hasBegun() && !first.hasPassed();
            throw deadlinePassed(partly ? "the rest of a message" : awaited, partly ? deadlines.stall() : allowed, e);
        } catch (PduStream.UnrecognizedPduException e) {
            abortReason = AbortReason.UNRECOGNIZED_PDU;
            happen(Event.EVT19);
            settle();
            throw new ProtocolViolation(peer, String.valueOf(e.getMessage()), e);
        } catch (DicomFormatException e) {
            throw violation("a PDU is not made as PS3.8 says, " + e.getMessage(), e);
        } catch (Transport.StoppedException e) {
            throw stopped(e);
        } catch (IOException e) {
            throw lost(e);
        }
        return received(pdu);
    }

    private Pdu received(Pdu pdu) throws AssociationException {
        abortReason = AbortReason.UNEXPECTED_PDU;
        State before = state;
        Action action = happen(eventOf(pdu));
        return switch (action) {
            case AE_3, AE_6, DT_2, AR_2, AR_3, AR_6, AR_8, AR_10 -> pdu;
            case AE_4 -> throw new Rejected(peer, rejection((Pdu.AssociateRj) pdu));
            case AA_2, AA_3 -> {
                Pdu.Abort abort = (Pdu.Abort) pdu;
                throw new Aborted(peer, AbortReason.of(abort.source(), abort.reason()));
            }
            default -> {
                settle();
                throw new ProtocolViolation(
                        peer, "a PDU of type %02X came in state %s".formatted(pdu.type(), before), null);
            }
        };
    }

    private static Rejection rejection(Pdu.AssociateRj reject) {
        return new Rejection(reject.result(), reject.source(), reject.reason());
    }

    private static Event eventOf(Pdu pdu) {
        if (pdu instanceof Pdu.AssociateAc) {
            return Event.EVT3;
        } else if (pdu instanceof Pdu.AssociateRj) {
            return Event.EVT4;
        } else if (pdu instanceof Pdu.AssociateRq) {
            return Event.EVT6;
        } else if (pdu instanceof Pdu.PData) {
            return Event.EVT10;
        } else if (pdu instanceof Pdu.ReleaseRq) {
            return Event.EVT12;
        } else if (pdu instanceof Pdu.ReleaseRp) {
            return Event.EVT13;
        } else if (pdu instanceof Pdu.Abort) {
            return Event.EVT16;
        }
        throw new AssertionError(pdu);
    }

    private DeadlinePassed deadlinePassed(String awaited, Duration allowed, IOException cause) {
        if (state == State.STA2) {
            happen(Event.EVT18);
        } else {
            abortNow();
        }
        return new DeadlinePassed(peer, awaited, allowed, cause);
    }

    private AssociationException lost(IOException cause) {
        if (StateTable.action(state, Event.EVT17).isPresent()) {
            happen(Event.EVT17);
        }
        if (cause instanceof TlsException insecure) {
            return new NotSecured(peer, insecure);
        }
        return new ConnectionLost(peer, String.valueOf(cause.getMessage()), cause);
    }

    /** A peer that aborts closes right after it: our write fails although the reason can still be read. */
    private AssociationException afterFailedWrite(IOException cause) {
        Deadline soon = Deadline.after(LAST_WORDS);
        try {
            while (true) {
                if (stream.read(soon, soon) instanceof Pdu.Abort abort) {
                    happen(Event.EVT16);
                    return new Aborted(peer, AbortReason.of(abort.source(), abort.reason()));
                }
            }
        } catch (TlsException e) {
            return lost(e);
        } catch (IOException e) {
            cause.addSuppressed(e);
        }
        return lost(cause);
    }

    /** Waits in state Sta13 for the peer to close the transport connection, or for the ARTIM timer. */
    private void settle() {
        Deadline timer = Deadline.after(deadlines.close());
        while (state == State.STA13) {
            happen(eventAtTheEnd(timer));
        }
    }

    private Event eventAtTheEnd(Deadline timer) {
        try {
            return eventOf(stream.read(timer, timer));
        } catch (SocketTimeoutException e) {
            return Event.EVT18;
        } catch (PduStream.UnrecognizedPduException | DicomFormatException e) {
            // What cannot be cut into PDUs any more is not worth the wait
            LOG.debug("{}: bytes after the end of the association", peer, e);
            return Event.EVT18;
        } catch (IOException e) {
            LOG.debug("{}: the transport connection ended", peer, e);
            return Event.EVT17;
        }
    }

    private void requireOpen(Event event) throws ConnectionLost {
        if (StateTable.action(state, event).isEmpty()) {
            throw new ConnectionLost(peer, "there is no association any more; open a new one", null);
        }
    }

    /** An event of our own making, with the PDU it sends, if any. */
    private void locally(Event event, @Nullable Pdu pdu) throws AssociationException {
        requireOpen(event);
        Action action = step(event);
        try {
            for (Effect effect : action.effects()) {
                perform(effect, pdu);
            }
        } catch (SocketTimeoutException e) {
            throw deadlinePassed("room for our next message", deadlines.stall(), e);
        } catch (IOException e) {
            throw afterFailedWrite(e);
        }
        closeIfIdle();
    }

    /** An event from outside, or one whose sending may fail without changing what we say. */
    private Action happen(Event event) {
        Action action = step(event);
        for (Effect effect : action.effects()) {
            try {
                perform(effect, null);
            } catch (IOException e) {
                LOG.debug("{}: {} of {} failed", peer, effect, action, e);
            }
        }
        closeIfIdle();
        return action;
    }

    private Action step(Event event) {
        Action action = StateTable.action(state, event)
                .orElseThrow(() -> new IllegalStateException("%s cannot happen in %s".formatted(event, state)));
        LOG.trace("{}: {} in {} asks for {}", peer, event, state, action);
        state = action.next(requestor);
        return action;
    }

    private void closeIfIdle() {
        if (state == State.STA1) {
            stream.transport().close();
        }
    }

    private void perform(Effect effect, @Nullable Pdu pdu) throws IOException {
        switch (effect) {
            case SEND_ASSOCIATE_RQ, SEND_ASSOCIATE_AC, SEND_ASSOCIATE_RJ -> {
                if (pdu != null) {
                    write(pdu);
                }
            }
            case SEND_RELEASE_RQ -> write(new Pdu.ReleaseRq());
            case SEND_RELEASE_RP -> write(new Pdu.ReleaseRp());
            case SEND_ABORT_BY_USER -> writeAbort(AbortReason.BY_USER);
            case SEND_ABORT_BY_PROVIDER -> writeAbort(abortReason);
            case START_ARTIM ->
                artim = Deadline.after(state == State.STA2 ? deadlines.negotiation() : deadlines.close());
            case STOP_ARTIM -> artim = null;
            case OPEN_TRANSPORT, CLOSE_TRANSPORT, SEND_DATA -> {
                // The transport opens before this object exists and closes with state Sta1; data are sent by the caller
            }
            case TELL_REQUESTED,
                    TELL_ACCEPTED,
                    TELL_REJECTED,
                    TELL_DATA,
                    TELL_RELEASE_REQUESTED,
                    TELL_RELEASED,
                    TELL_ABORTED,
                    TELL_ABORTED_BY_PROVIDER -> {
                // What is told goes to the caller as result or exception
            }
        }
    }

    private void write(Pdu pdu) throws IOException {
        stream.write(
                pdu,
                Deadline.after(
                        deadlines.close().compareTo(deadlines.stall()) > 0 ? deadlines.close() : deadlines.stall()));
    }

    /** Behind half a PDU an abort would be read as data, so it is left out there; it never waits long for room. */
    private void writeAbort(AbortReason reason) throws IOException {
        if (!stream.isTorn()) {
            stream.write(new Pdu.Abort(reason.source(), reason.code()), Deadline.after(LAST_WORDS));
        }
    }
}
