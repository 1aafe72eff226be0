package vestibule.conformance.fault;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.conformance.fault.LinkFault.Direction;

/**
 * A link that breaks as it is told: listens on a free port of the loopback address, passes every connection on to the archive, and on each
 * does the harm that the plan holds for it.
 */
public final class FaultProxy implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(FaultProxy.class);

    /** What goes wrong on each connection. */
    @FunctionalInterface
    public interface Plan {
        /**
         * The faults of one connection; none to let it pass.
         *
         * @param connection how many were taken before it
         */
        List<LinkFault> on(int connection);

        /** A link without faults. */
        Plan HEALTHY = connection -> List.of();
    }

    private final ServerSocket listening;
    private final InetSocketAddress target;
    private final AtomicInteger taken = new AtomicInteger();
    private final Set<FaultLink> open = ConcurrentHashMap.newKeySet();
    private final List<FaultLink> all = new CopyOnWriteArrayList<>();
    private final Thread accepting;
    private volatile Plan plan;
    private volatile boolean refusing;

    private FaultProxy(ServerSocket listening, InetSocketAddress target, Plan plan) {
        this.listening = listening;
        this.target = target;
        this.plan = plan;
        this.accepting = new Thread(this::acceptAll, "fault-proxy");
    }

    /** Starts to listen on a free port. */
    public static FaultProxy before(InetSocketAddress target, Plan plan) throws IOException {
        return before(target, 0, plan);
    }

    /** Starts to listen on a port; 0 for any free one. */
    public static FaultProxy before(InetSocketAddress target, int port, Plan plan) throws IOException {
        ServerSocket listening = new ServerSocket(port, 64, InetAddress.getLoopbackAddress());
        FaultProxy proxy = new FaultProxy(listening, target, plan);
        proxy.accepting.setDaemon(true);
        proxy.accepting.start();
        return proxy;
    }

    /** Where it listens. */
    public int port() {
        return listening.getLocalPort();
    }

    /** The faults of the connections that come from now on. */
    public void plan(Plan next) {
        plan = next;
    }

    /** Whether connections that come from now on are closed at once, as by an archive that is down. */
    public void refuse(boolean all) {
        refusing = all;
    }

    /** How many connections came. */
    public int connections() {
        return taken.get();
    }

    /** How many connections stand now. */
    public int standing() {
        return open.size();
    }

    /** Where each PDU ended on a connection, in bytes from the start of its direction. */
    public List<Long> edges(int connection, Direction direction) {
        return all.get(connection).edges(direction).ends();
    }

    /** How many bytes came on a connection, whether they were let through or not. */
    public long bytes(int connection, Direction direction) {
        return all.get(connection).edges(direction).position();
    }

    private void acceptAll() {
        while (!listening.isClosed()) {
            try {
                take(listening.accept());
            } catch (IOException e) {
                if (!listening.isClosed()) {
                    LOG.warn("a connection could not be passed on: {}", e.getMessage());
                }
            }
        }
    }

    private void take(Socket near) throws IOException {
        if (refusing) {
            near.close();
            return;
        }
        Socket far = new Socket();
        try {
            far.connect(target);
        } catch (IOException e) {
            near.close();
            throw e;
        }
        FaultLink link = new FaultLink(near, far, plan.on(taken.get()), open::remove);
        open.add(link);
        all.add(link);
        taken.incrementAndGet();
        link.start();
    }

    @Override
    public void close() throws IOException {
        listening.close();
        open.forEach(FaultProxy::closeQuietly);
        try {
            accepting.join();
            for (FaultLink link : all) {
                closeQuietly(link);
                link.join();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    static void closeQuietly(Closeable resource) {
        try {
            resource.close();
        } catch (IOException e) {
            LOG.debug("closing a connection failed", e);
        }
    }
}
