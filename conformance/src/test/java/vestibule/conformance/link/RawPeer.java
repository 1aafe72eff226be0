package vestibule.conformance.link;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;

/** A peer that plays one script on one connection, byte by byte; it knows nothing of the program it is used against. */
final class RawPeer implements AutoCloseable {

    private static final int SMALL_BUFFER = 4096;
    private static final long TRICKLE = TimeUnit.MILLISECONDS.toNanos(20);

    private final ServerSocket server;
    private final Thread thread;
    private final CountDownLatch over = new CountDownLatch(1);
    private volatile @Nullable String surprise;

    RawPeer(Script script) throws IOException {
        server = new ServerSocket();
        server.setReceiveBufferSize(SMALL_BUFFER);
        server.bind(new java.net.InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 1);
        thread = new Thread(() -> play(script), "raw-peer");
        thread.start();
    }

    int port() {
        return server.getLocalPort();
    }

    private void play(Script script) {
        try {
            if (script.moves().get(0).verb().equals("unaccepted")) {
                over.await();
                return;
            }
            try (Socket socket = server.accept()) {
                for (Script.Move move : script.moves()) {
                    play(socket, move);
                }
            }
        } catch (IOException e) {
            surprise = "%s: %s".formatted(script.name(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void play(Socket socket, Script.Move move) throws IOException, InterruptedException {
        switch (move.verb()) {
            case "read" -> read(socket, move.bytes());
            case "send" -> socket.getOutputStream().write(move.bytes());
            case "trickle" -> trickle(socket.getOutputStream(), move.bytes());
            case "close" -> socket.close();
            case "reset" -> {
                socket.setSoLinger(true, 0);
                socket.close();
            }
            // Reads over whatever still comes, until we close
            case "drain" -> drain(socket);
            // Neither reads nor closes until the case is over
            case "hold" -> over.await();
            default -> throw new IOException("no move is called " + move.verb());
        }
    }

    private static void read(Socket socket, byte[] type) throws IOException {
        DataInputStream in = new DataInputStream(socket.getInputStream());
        int found = in.readUnsignedByte();
        in.readByte();
        in.readNBytes(in.readInt());
        if (found != type[0]) {
            throw new IOException("a PDU of type %02X came where %02X was expected".formatted(found, type[0]));
        }
    }

    private void trickle(OutputStream out, byte[] bytes) {
        try {
            for (byte each : bytes) {
                out.write(each);
                LockSupport.parkNanos(TRICKLE);
            }
        } catch (IOException closedMeanwhile) {
            over.countDown();
        }
    }

    private static void drain(Socket socket) throws IOException {
        try {
            socket.getInputStream().transferTo(OutputStream.nullOutputStream());
        } catch (java.net.SocketException cutOff) {
            socket.close();
        }
    }

    /** Ends, and tells what the peer did not expect. */
    @Nullable String end() throws IOException, InterruptedException {
        close();
        thread.join();
        return surprise;
    }

    @Override
    public void close() throws IOException {
        over.countDown();
        server.close();
    }
}
