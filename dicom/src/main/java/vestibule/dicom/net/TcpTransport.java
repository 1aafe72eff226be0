package vestibule.dicom.net;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.net.InetSocketAddress;
import java.net.SocketAddress;
import java.net.SocketOption;
import java.net.SocketTimeoutException;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.AsynchronousCloseException;
import java.nio.channels.ClosedSelectorException;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.time.Duration;
import jdk.net.ExtendedSocketOptions;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A TCP connection. The channel does not block; waits happen in a selector, which keeps deadlines for reads and writes alike. */
final class TcpTransport implements Transport {

    private static final Logger LOG = LoggerFactory.getLogger(TcpTransport.class);
    private static final SocketOption<Boolean> QUICK_ACK = ExtendedSocketOptions.TCP_QUICKACK;

    private final SocketChannel channel;
    private final Selector selector;
    private final SelectionKey key;
    private final boolean quickAck;
    private volatile Stop stop = Stop.NEVER;

    private TcpTransport(SocketChannel channel) throws IOException {
        this.channel = channel;
        channel.configureBlocking(false);
        channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
        channel.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
        this.quickAck = channel.supportedOptions().contains(QUICK_ACK);
        this.selector = Selector.open();
        this.key = channel.register(selector, 0);
    }

    /** A transport over a channel, which is closed if that fails. */
    static TcpTransport over(SocketChannel channel) throws IOException {
        try {
            return new TcpTransport(channel);
        } catch (IOException e) {
            Transport.closeQuietly(LOG, channel);
            throw e;
        }
    }

    /** Opens a connection. */
    static TcpTransport connect(InetSocketAddress address, Deadline deadline) throws IOException {
        TcpTransport transport = over(SocketChannel.open());
        try {
            if (!transport.channel.connect(address)) {
                do {
                    transport.await(SelectionKey.OP_CONNECT, deadline, false);
                } while (!transport.channel.finishConnect());
            }
            return transport;
        } catch (IOException | RuntimeException e) {
            transport.close();
            throw e;
        }
    }

    @Override
    public int read(ByteBuffer target, Deadline deadline, boolean idle) throws IOException {
        int count = channel.read(target);
        while (count == 0) {
            acknowledgeAtOnce();
            await(SelectionKey.OP_READ, deadline, idle);
            count = channel.read(target);
        }
        return count;
    }

    /**
     * The kernel falls back to delayed acknowledgements by itself, so this is said again before each wait. A receiver that leaves
     * Nagle's algorithm on holds the second half of its answer back until the first is acknowledged.
     */
    private void acknowledgeAtOnce() throws IOException {
        if (quickAck) {
            channel.setOption(QUICK_ACK, true);
        }
    }

    @Override
    public int readNow(ByteBuffer target) throws IOException {
        return channel.read(target);
    }

    @Override
    public void write(ByteBuffer source, Deadline deadline, Duration stall) throws IOException {
        while (source.hasRemaining()) {
            if (channel.write(source) == 0) {
                await(SelectionKey.OP_WRITE, deadline.earlier(Deadline.after(stall)), false);
            }
        }
    }

    private void await(int operation, Deadline deadline, boolean idle) throws IOException {
        try {
            key.interestOps(operation);
            int ready = 0;
            while (ready == 0) {
                checkStop(idle);
                if (deadline.hasPassed()) {
                    throw new SocketTimeoutException();
                }
                ready = selector.select(deadline.millisLeft());
                selector.selectedKeys().clear();
            }
        } catch (ClosedSelectorException | java.nio.channels.CancelledKeyException e) {
            AsynchronousCloseException closed = new AsynchronousCloseException();
            closed.initCause(e);
            throw closed;
        }
    }

    private void checkStop(boolean idle) throws IOException {
        if (stop == Stop.NOW || (idle && stop == Stop.WHEN_IDLE)) {
            throw new StoppedException();
        }
        if (Thread.currentThread().isInterrupted()) {
            throw new InterruptedIOException("the thread was interrupted");
        }
        if (!channel.isOpen()) {
            throw new AsynchronousCloseException();
        }
    }

    @Override
    public void stop(Stop when) {
        stop = when;
        selector.wakeup();
    }

    @Override
    public String remote() {
        try {
            SocketAddress address = channel.getRemoteAddress();
            return address == null ? "an unconnected peer" : address.toString();
        } catch (IOException e) {
            LOG.debug("the address of a peer is not known any more", e);
            return "a peer that has gone";
        }
    }

    @Override
    public void close() {
        Transport.closeQuietly(LOG, channel);
        Transport.closeQuietly(LOG, selector);
    }
}
