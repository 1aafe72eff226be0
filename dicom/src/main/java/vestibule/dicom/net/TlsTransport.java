package vestibule.dicom.net;

import java.io.EOFException;
import java.io.IOException;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.concurrent.locks.ReentrantLock;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.SSLEngineResult;
import javax.net.ssl.SSLException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.net.tls.TlsConnection;
import vestibule.dicom.net.tls.TlsException;

/** A transport inside TLS (PS3.15 B.12). Bytes go through the engine here; waits, deadlines and stops are those of the transport below. */
final class TlsTransport implements Transport {

    private static final Logger LOG = LoggerFactory.getLogger(TlsTransport.class);
    private static final Duration LAST_WORDS = Duration.ofMillis(200);
    private static final int FIRST_BYTES = 8;

    private final Transport below;
    private final TlsConnection connection;
    private final SSLEngine engine;
    private final byte[] first = new byte[FIRST_BYTES];
    private final ReentrantLock writing = new ReentrantLock();

    /** Records that came and were not opened yet, and opened bytes that were not read yet; both ready to be read from. */
    private ByteBuffer records;

    private ByteBuffer opened;
    private final ByteBuffer sealed;
    private int firstCount;
    private boolean heard;
    private boolean ended;

    private TlsTransport(Transport below, TlsConnection connection) {
        this.below = below;
        this.connection = connection;
        this.engine = connection.engine();
        int record = engine.getSession().getPacketBufferSize();
        this.records = ByteBuffer.allocate(record).limit(0);
        this.opened = ByteBuffer.allocate(engine.getSession().getApplicationBufferSize())
                .limit(0);
        this.sealed = ByteBuffer.allocate(2 * record);
    }

    /**
     * Does the handshake over a transport that has just been opened.
     *
     * @throws TlsException if it fails; the transport is still open
     */
    static TlsTransport secured(Transport below, TlsConnection connection, Deadline deadline) throws IOException {
        TlsTransport transport = new TlsTransport(below, connection);
        try {
            transport.handshake(deadline);
            return transport;
        } catch (SSLException e) {
            transport.lastWords();
            throw transport.explained(e);
        } catch (SocketTimeoutException e) {
            throw new TlsException(
                    TlsException.Mistake.NO_ANSWER,
                    "the TLS handshake did not end in time; check that this port expects TLS (else it is called as dicom://)",
                    e);
        }
    }

    private void handshake(Deadline deadline) throws IOException {
        engine.beginHandshake();
        while (true) {
            switch (engine.getHandshakeStatus()) {
                case NEED_TASK -> runTasks();
                case NEED_WRAP -> flush(deadline, deadline);
                case NEED_UNWRAP, NEED_UNWRAP_AGAIN -> {
                    if (!open(deadline)) {
                        throw connection.closed(null);
                    }
                }
                case FINISHED, NOT_HANDSHAKING -> {
                    return;
                }
            }
        }
    }

    private void runTasks() {
        Runnable task = engine.getDelegatedTask();
        while (task != null) {
            task.run();
            task = engine.getDelegatedTask();
        }
    }

    /** Sends what the engine itself has to say. */
    private void flush(Deadline deadline, Deadline stall) throws IOException {
        writing.lock();
        try {
            seal(ByteBuffer.allocate(0));
            send(deadline, stall);
        } finally {
            writing.unlock();
        }
    }

    private void seal(ByteBuffer source) throws SSLException {
        sealed.clear();
        SSLEngineResult result = engine.wrap(source, sealed);
        sealed.flip();
        if (result.getStatus() == SSLEngineResult.Status.CLOSED && !sealed.hasRemaining() && source.hasRemaining()) {
            throw new SSLException("the TLS connection has been closed");
        }
        if (result.getHandshakeStatus() == SSLEngineResult.HandshakeStatus.NEED_TASK) {
            runTasks();
        }
    }

    private void send(Deadline deadline, Deadline stall) throws IOException {
        Duration left = Duration.ofMillis(stall.millisLeft());
        while (sealed.hasRemaining()) {
            below.write(sealed, deadline, left);
        }
    }

    /** Opens one record, after waiting for it if need be; false at the end of the connection. */
    private boolean open(Deadline deadline) throws IOException {
        while (true) {
            Step step = openWhatIsHere();
            if (step == Step.MORE_NEEDED) {
                if (!fill(deadline, !records.hasRemaining() && opened.limit() == 0)) {
                    return false;
                }
            } else {
                return step == Step.DONE;
            }
        }
    }

    private enum Step {
        DONE,
        MORE_NEEDED,
        ENDED
    }

    /** Opens one record without waiting; nothing is left unread in {@code opened} when this is called. */
    private Step openWhatIsHere() throws IOException {
        opened.clear();
        SSLEngineResult result;
        try {
            result = engine.unwrap(records, opened);
        } finally {
            opened.flip();
        }
        if (result.getHandshakeStatus() == SSLEngineResult.HandshakeStatus.NEED_TASK) {
            runTasks();
        }
        return switch (result.getStatus()) {
            case OK -> Step.DONE;
            case BUFFER_UNDERFLOW -> Step.MORE_NEEDED;
            case CLOSED -> {
                ended = true;
                yield Step.ENDED;
            }
            case BUFFER_OVERFLOW -> {
                opened = ByteBuffer.allocate(2 * opened.capacity()).limit(0);
                yield Step.DONE;
            }
        };
    }

    private void makeRoom() {
        if (records.limit() == records.capacity() && records.position() == 0) {
            records = ByteBuffer.allocate(2 * records.capacity()).put(records).flip();
        }
    }

    private boolean fill(Deadline deadline, boolean idle) throws IOException {
        makeRoom();
        records.compact();
        int count;
        try {
            count = below.read(records, deadline, idle);
        } finally {
            records.flip();
        }
        noteFirst();
        ended |= count < 0;
        return count >= 0;
    }

    private void noteFirst() {
        while (firstCount < FIRST_BYTES && firstCount < records.limit()) {
            first[firstCount] = records.get(firstCount);
            firstCount++;
        }
    }

    @Override
    public int read(ByteBuffer target, Deadline deadline, boolean idle) throws IOException {
        try {
            while (true) {
                int count = taken(target);
                if (count != 0) {
                    return count;
                }
                Step step = openWhatIsHere();
                answerIfNeeded(deadline);
                if (step == Step.MORE_NEEDED) {
                    fill(deadline, idle && !records.hasRemaining());
                }
            }
        } catch (SSLException e) {
            lastWords();
            throw explained(e);
        } catch (EOFException | SocketTimeoutException | StoppedException e) {
            throw e;
        } catch (IOException e) {
            throw !heard && connection.owesCertificate() ? connection.closed(e) : e;
        }
    }

    /** What is there already: a count, 0 if a record must be opened first, -1 at the end. */
    private int taken(ByteBuffer target) throws IOException {
        if (!opened.hasRemaining()) {
            if (ended && !heard && connection.owesCertificate()) {
                throw connection.closed(null);
            }
            return ended ? -1 : 0;
        }
        heard = true;
        int count = Math.min(target.remaining(), opened.remaining());
        target.put(opened.slice(opened.position(), count));
        opened.position(opened.position() + count);
        return count;
    }

    /** The peer may ask for new keys at any time. */
    private void answerIfNeeded(Deadline deadline) throws IOException {
        if (engine.getHandshakeStatus() == SSLEngineResult.HandshakeStatus.NEED_WRAP && !engine.isOutboundDone()) {
            flush(deadline, deadline);
        }
    }

    @Override
    public int readNow(ByteBuffer target) throws IOException {
        try {
            while (true) {
                int count = taken(target);
                if (count != 0) {
                    return count;
                }
                if (openWhatIsHere() == Step.MORE_NEEDED && !fillNow()) {
                    return ended ? -1 : 0;
                }
            }
        } catch (SSLException e) {
            throw explained(e);
        }
    }

    private boolean fillNow() throws IOException {
        makeRoom();
        records.compact();
        int count;
        try {
            count = below.readNow(records);
        } finally {
            records.flip();
        }
        ended |= count < 0;
        return count > 0;
    }

    @Override
    public void write(ByteBuffer source, Deadline deadline, Duration stall) throws IOException {
        writing.lock();
        try {
            while (source.hasRemaining()) {
                seal(source);
                while (sealed.hasRemaining()) {
                    below.write(sealed, deadline, stall);
                }
            }
        } catch (SSLException e) {
            throw explained(e);
        } finally {
            writing.unlock();
        }
    }

    private TlsException explained(SSLException e) {
        return ForeignProtocol.of(first, firstCount)
                .filter(foreign -> !foreign.isTls())
                .map(foreign -> new TlsException(TlsException.Mistake.NOT_TLS, foreign.insteadOfTls(), e))
                .orElseGet(() -> connection.explain(e));
    }

    /** Tells the peer why, or that nothing more comes; it never waits long, and never for another thread that writes. */
    private void lastWords() {
        if (!writing.tryLock()) {
            return;
        }
        try {
            engine.closeOutbound();
            Deadline soon = Deadline.after(LAST_WORDS);
            while (!engine.isOutboundDone()) {
                seal(ByteBuffer.allocate(0));
                if (!sealed.hasRemaining()) {
                    return;
                }
                send(soon, soon);
            }
        } catch (IOException e) {
            LOG.debug("{}: the last TLS record was not sent", remote(), e);
        } finally {
            writing.unlock();
        }
    }

    @Override
    public void stop(Stop when) {
        below.stop(when);
    }

    @Override
    public String remote() {
        return below.remote();
    }

    @Override
    public void close() {
        lastWords();
        below.close();
    }
}
