package vestibule.conformance.fault;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.conformance.fault.LinkFault.Direction;

/** One connection through the proxy: two threads, one each way. */
final class FaultLink implements Closeable {

    private static final Logger LOG = LoggerFactory.getLogger(FaultLink.class);
    private static final int PORTION = 1 << 16;

    private final Socket near;
    private final Socket far;
    private final Pump there;
    private final Pump back;
    private final CountDownLatch closed = new CountDownLatch(1);
    private final AtomicInteger running = new AtomicInteger(2);
    private final Consumer<FaultLink> ended;

    FaultLink(Socket near, Socket far, List<LinkFault> faults, Consumer<FaultLink> ended) throws IOException {
        this.near = near;
        this.far = far;
        this.ended = ended;
        near.setTcpNoDelay(true);
        far.setTcpNoDelay(true);
        this.there = new Pump(Direction.THERE, near, far, new FaultSchedule(Direction.THERE, faults));
        this.back = new Pump(Direction.BACK, far, near, new FaultSchedule(Direction.BACK, faults));
    }

    void start() {
        there.start();
        back.start();
    }

    void join() throws InterruptedException {
        there.join();
        back.join();
    }

    PduEdges edges(Direction direction) {
        return direction == Direction.THERE ? there.edges : back.edges;
    }

    @Override
    public void close() throws IOException {
        closed.countDown();
        try {
            near.close();
        } finally {
            far.close();
        }
    }

    /** A socket that lingers for no time at all is closed with a reset (SO_LINGER of zero). */
    private void reset() throws IOException {
        near.setSoLinger(true, 0);
        far.setSoLinger(true, 0);
        close();
    }

    /** Waits, but not longer than the connection lives. */
    private void hold(long nanos) {
        try {
            if (closed.await(nanos, TimeUnit.NANOSECONDS)) {
                LOG.trace("closed while bytes were held back");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Carries the bytes of one direction. */
    private final class Pump extends Thread {
        private final Socket from;
        private final Socket to;
        private final FaultSchedule schedule;
        private final PduEdges edges = new PduEdges();

        Pump(Direction direction, Socket from, Socket to, FaultSchedule schedule) {
            super("fault-link-" + direction);
            setDaemon(true);
            this.from = from;
            this.to = to;
            this.schedule = schedule;
        }

        @Override
        public void run() {
            try {
                pump(from.getInputStream(), to.getOutputStream());
            } catch (IOException e) {
                // Either side may end at any moment: that is what this program is for.
                LOG.debug("a connection ended: {}", e.getMessage());
                FaultProxy.closeQuietly(FaultLink.this);
            } finally {
                if (running.decrementAndGet() == 0) {
                    FaultProxy.closeQuietly(FaultLink.this);
                    ended.accept(FaultLink.this);
                }
            }
        }

        private void pump(InputStream in, OutputStream out) throws IOException {
            byte[] portion = new byte[PORTION];
            if (!act(schedule.due(edges))) {
                return;
            }
            int count = in.read(portion);
            while (count >= 0) {
                if (!pass(portion, count, out)) {
                    return;
                }
                count = in.read(portion);
            }
            to.shutdownOutput();
        }

        /** Passes a portion on, in the pieces that the schedule asks for; false once nothing more may go through. */
        private boolean pass(byte[] portion, int count, OutputStream out) throws IOException {
            for (FaultSchedule.Piece piece : schedule.pieces(portion, count, edges)) {
                hold(piece.holdNanos());
                out.write(piece.bytes());
                out.flush();
                if (!act(piece.then())) {
                    return false;
                }
            }
            return true;
        }

        private boolean act(FaultSchedule.Then then) throws IOException {
            switch (then) {
                case GO_ON -> {
                    return true;
                }
                case CUT -> close();
                case RESET -> reset();
                case STALL -> drain();
            }
            return false;
        }

        /** Reads on so that the sender sees no full buffer, and passes nothing, until the sender gives up. */
        private void drain() throws IOException {
            byte[] nowhere = new byte[PORTION];
            InputStream in = from.getInputStream();
            while (in.read(nowhere) >= 0) {
                LOG.trace("bytes were swallowed");
            }
            close();
        }
    }
}
