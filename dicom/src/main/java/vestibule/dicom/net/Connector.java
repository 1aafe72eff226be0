package vestibule.dicom.net;

import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.net.AssociationException.NotReachable;
import vestibule.dicom.net.AssociationException.NotReachable.Obstacle;
import vestibule.dicom.net.tls.TlsConnection;
import vestibule.dicom.net.tls.TlsException;

/** Finds the addresses of a host and opens a transport connection to the first that answers, all within one deadline. */
final class Connector {

    private final ApplicationEntity peer;
    private final Duration allowed;
    private final Progress progress;
    private final Deadline deadline;

    private Connector(ApplicationEntity peer, Duration allowed, Progress progress) {
        this.peer = peer;
        this.allowed = allowed;
        this.progress = progress;
        this.deadline = Deadline.after(allowed);
    }

    /** Connects, and secures the connection where the peer is to be reached by TLS. */
    static Transport connect(ApplicationEntity peer, Deadlines deadlines, Progress progress)
            throws AssociationException {
        Transport plain = new Connector(peer, deadlines.connect(), progress).connect();
        return peer.tls().isPresent()
                ? secured(plain, peer, peer.tls().get().client(peer.host(), peer.port()), deadlines, progress)
                : plain;
    }

    private static Transport secured(
            Transport plain, ApplicationEntity peer, TlsConnection tls, Deadlines deadlines, Progress progress)
            throws AssociationException {
        try {
            Transport secured = TlsTransport.secured(plain, tls, Deadline.after(deadlines.negotiation()));
            progress.secured(tls.facts());
            return secured;
        } catch (TlsException e) {
            plain.close();
            throw new AssociationException.NotSecured(peer.toString(), e);
        } catch (IOException e) {
            plain.close();
            throw new AssociationException.NotSecured(peer.toString(), tls.closed(e));
        }
    }

    private Transport connect() throws NotReachable {
        InetAddress[] addresses = addresses();
        progress.resolved(List.of(addresses));
        NotReachable last = null;
        for (int i = 0; i < addresses.length; i++) {
            Duration share = Duration.ofMillis(deadline.millisLeft() / (addresses.length - i) + 1);
            try {
                InetSocketAddress address = new InetSocketAddress(addresses[i], peer.port());
                Transport transport = TcpTransport.connect(address, deadline.earlier(Deadline.after(share)));
                progress.connected(address);
                return transport;
            } catch (IOException e) {
                NotReachable failure = explain(e);
                if (last != null) {
                    failure.addSuppressed(last);
                }
                last = failure;
            }
        }
        throw last != null ? last : nameNotFound(null);
    }

    /** The system's look-up of names cannot be cut short, so it runs on a thread of its own that nobody waits for beyond the deadline. */
    private InetAddress[] addresses() throws NotReachable {
        FutureTask<InetAddress[]> lookUp = new FutureTask<>(() -> InetAddress.getAllByName(peer.host()));
        Thread thread = new Thread(lookUp, "name look-up");
        thread.setDaemon(true);
        thread.start();
        try {
            return lookUp.get(deadline.millisLeft(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException e) {
            throw new NotReachable(
                    Obstacle.NAME_NOT_ANSWERED,
                    "%s: the name was not resolved within %d s; check the name server"
                            .formatted(peer, allowed.toSeconds()),
                    e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new NotReachable(Obstacle.OTHER, peer + ": the wait for its address was interrupted", e);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof UnknownHostException) {
                throw nameNotFound(e.getCause());
            }
            throw new NotReachable(Obstacle.OTHER, peer + ": its address was not found: " + e.getCause(), e);
        }
    }

    private NotReachable nameNotFound(@Nullable Throwable cause) {
        return new NotReachable(
                Obstacle.NAME_NOT_FOUND,
                "%s: no machine of that name is known; check the host name, or give the address".formatted(peer),
                cause);
    }

    private NotReachable explain(IOException e) {
        if (e instanceof SocketTimeoutException) {
            return new NotReachable(
                    Obstacle.TIMED_OUT,
                    "%s: nothing answered within %d ms; check the address and the firewalls between"
                            .formatted(peer, allowed.toMillis()),
                    e);
        }
        if (e instanceof NoRouteToHostException) {
            return new NotReachable(
                    Obstacle.NO_ROUTE, peer + ": no route leads to that host; check the address and the network", e);
        }
        if (e instanceof ConnectException) {
            return new NotReachable(
                    Obstacle.REFUSED,
                    peer + ": the connection was refused; check that the archive runs and listens on that port",
                    e);
        }
        return new NotReachable(Obstacle.OTHER, "%s: no connection: %s".formatted(peer, e.getMessage()), e);
    }
}
