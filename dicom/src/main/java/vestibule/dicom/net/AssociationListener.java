package vestibule.dicom.net;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.SynchronousQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.net.tls.TlsConnection;
import vestibule.dicom.net.tls.TlsException;

/**
 * Waits for associations on a port and gives each its own thread (PS3.8 9.1.3). The number of associations is bounded: beyond it requests
 * are rejected for now, and connections beyond a few more are closed at once. Closing ends idle associations, gives busy ones the time that
 * is asked for, aborts the rest, and leaves no thread.
 */
public final class AssociationListener implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(AssociationListener.class);

    /** How many connections beyond the bound get a rejection rather than being closed. */
    private static final int REJECTED_AT_A_TIME = 4;

    private static final int BACKLOG = 64;
    private static final Duration PAUSE_AFTER_FAILURE = Duration.ofMillis(100);
    private static final Duration USUAL_GRACE = Duration.ofSeconds(10);

    /** Serves one association from its first message to its release. */
    public interface Server {
        /**
         * Serves until the peer releases; the association is closed afterwards in any case.
         *
         * @throws IOException if the association ends otherwise
         */
        void serve(Association association) throws IOException;

        /**
         * Hears of a caller that got no association, or lost it.
         *
         * @param why who it was, by address, and what happened
         */
        default void endedEarly(IOException why) {
            LOG.debug("nobody wants to hear of {}", String.valueOf(why.getMessage()));
        }
    }

    private final ServerSocketChannel channel;
    private final AcceptorSettings settings;
    private final Server server;
    private final ThreadPoolExecutor threads;
    private final Thread accepting;
    private final Set<Transport> transports = ConcurrentHashMap.newKeySet();
    private final AtomicInteger standing = new AtomicInteger();
    private final CountDownLatch stopped = new CountDownLatch(1);

    private AssociationListener(ServerSocketChannel channel, AcceptorSettings settings, Server server) {
        this.channel = channel;
        this.settings = settings;
        this.server = server;
        AtomicInteger number = new AtomicInteger();
        this.threads = new ThreadPoolExecutor(
                0,
                settings.maximumAssociations() + REJECTED_AT_A_TIME,
                10,
                TimeUnit.SECONDS,
                new SynchronousQueue<>(),
                task -> new Thread(task, "association-" + number.incrementAndGet()));
        this.accepting = new Thread(this::acceptAll, "association-listener");
    }

    /**
     * Starts to listen.
     *
     * @param address where; port 0 for any free one
     * @param settings whom to serve, and with what
     * @param server what to do with each association, called by several threads
     * @throws IOException if the address cannot be listened on
     */
    public static AssociationListener open(InetSocketAddress address, AcceptorSettings settings, Server server)
            throws IOException {
        ServerSocketChannel channel = ServerSocketChannel.open();
        try {
            channel.setOption(StandardSocketOptions.SO_REUSEADDR, true);
            channel.bind(address, BACKLOG);
        } catch (IOException | RuntimeException e) {
            Transport.closeQuietly(LOG, channel);
            throw new IOException(
                    "port %d on %s cannot be listened on (%s); another program may be using it: end that, or name another port"
                            .formatted(address.getPort(), address.getHostString(), e.getMessage()),
                    e);
        }
        AssociationListener listener = new AssociationListener(channel, settings, server);
        listener.accepting.start();
        return listener;
    }

    /** Where it listens. */
    public InetSocketAddress address() {
        try {
            return (InetSocketAddress) channel.getLocalAddress();
        } catch (IOException e) {
            throw new IllegalStateException("the listener is closed", e);
        }
    }

    /** How many associations stand now. */
    public int associations() {
        return standing.get();
    }

    private void acceptAll() {
        while (channel.isOpen()) {
            try {
                take(channel.accept());
            } catch (IOException e) {
                if (channel.isOpen()) {
                    LOG.warn("no connection could be taken: {}", e.getMessage());
                    pause();
                }
            }
        }
    }

    /** Out of file handles, accepting fails at once and again; a pause leaves others time to give some back. */
    private void pause() {
        try {
            if (stopped.await(PAUSE_AFTER_FAILURE.toMillis(), TimeUnit.MILLISECONDS)) {
                LOG.debug("the listener was closed during a pause");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void take(SocketChannel connection) throws IOException {
        Transport transport = TcpTransport.over(connection);
        transports.add(transport);
        try {
            threads.execute(() -> run(transport));
        } catch (RejectedExecutionException e) {
            LOG.warn("a connection from {} was closed because too many are open", transport.remote());
            transports.remove(transport);
            transport.close();
        }
    }

    private void run(Transport transport) {
        String remote = transport.remote();
        boolean full = standing.incrementAndGet() > settings.maximumAssociations();
        try {
            Association association = new Acceptor(settings, full).negotiate(secured(transport));
            serve(association);
        } catch (IOException e) {
            LOG.info("an association from {} ended early: {}", remote, e.getMessage());
            server.endedEarly(e);
        } catch (RuntimeException e) {
            LOG.error("an association from {} ended by a fault of ours", remote, e);
        } finally {
            standing.decrementAndGet();
            transports.remove(transport);
            transport.close();
        }
    }

    private Transport secured(Transport plain) throws AssociationException {
        if (settings.tls().isEmpty()) {
            return plain;
        }
        TlsConnection tls = settings.tls().get().server();
        String caller = "the peer at " + plain.remote();
        try {
            Deadline deadline = Deadline.after(settings.deadlines().negotiation());
            return TlsTransport.secured(plain, tls, deadline);
        } catch (TlsException e) {
            throw new AssociationException.NotSecured(caller, e);
        } catch (IOException e) {
            throw new AssociationException.NotSecured(caller, tls.closed(e));
        }
    }

    private void serve(Association association) throws IOException {
        try {
            server.serve(association);
        } catch (IOException | RuntimeException e) {
            association.abort();
            throw e;
        }
        association.close();
    }

    /** Stops as {@link #close(Duration)} does, with ten seconds for associations that are busy. */
    @Override
    public void close() {
        close(USUAL_GRACE);
    }

    /**
     * Stops: no new associations, idle ones are aborted, busy ones may finish their message.
     *
     * @param grace how long busy ones may take before they are aborted too
     */
    public void close(Duration grace) {
        Transport.closeQuietly(LOG, channel);
        stopped.countDown();
        threads.shutdown();
        stopAll(Transport.Stop.WHEN_IDLE);
        try {
            accepting.join();
            // A connection taken at the last moment may have missed the first word
            stopAll(Transport.Stop.WHEN_IDLE);
            if (!threads.awaitTermination(grace.toMillis(), TimeUnit.MILLISECONDS)) {
                stopAll(Transport.Stop.NOW);
                if (!threads.awaitTermination(settings.deadlines().close().toMillis(), TimeUnit.MILLISECONDS)) {
                    LOG.warn("{} associations did not end in time and were cut off", transports.size());
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            transports.forEach(Transport::close);
        }
    }

    private void stopAll(Transport.Stop when) {
        transports.forEach(transport -> transport.stop(when));
    }
}
