package vestibule.conformance.fault;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.conformance.fault.LinkFault.Direction;

@DisplayName("A link that breaks as it is told")
@Timeout(30)
class FaultProxyTest {

    private ServerSocket echo;

    @BeforeEach
    void start() throws IOException {
        echo = new ServerSocket(0, 8, InetAddress.getLoopbackAddress());
        Thread thread = new Thread(this::serve);
        thread.setDaemon(true);
        thread.start();
    }

    @AfterEach
    void stop() throws IOException {
        echo.close();
    }

    private void serve() {
        while (!echo.isClosed()) {
            try (Socket socket = echo.accept()) {
                socket.getInputStream().transferTo(socket.getOutputStream());
            } catch (IOException ended) {
                // The test closes connections at will; the next one is served like the first.
                assertThat(ended).isNotNull();
            }
        }
    }

    private FaultProxy proxy(LinkFault... faults) throws IOException {
        return FaultProxy.before(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), echo.getLocalPort()),
                connection -> connection == 0 ? List.of(faults) : List.of());
    }

    private static Socket connect(FaultProxy proxy) throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), proxy.port());
        socket.setSoTimeout(10_000);
        return socket;
    }

    /** PDUs of a made-up kind: type, reserved byte, length, that many bytes of a number. */
    private static byte[] pdus(int... lengths) {
        ByteBuffer bytes = ByteBuffer.allocate(Arrays.stream(lengths).sum() + 6 * lengths.length);
        for (int i = 0; i < lengths.length; i++) {
            byte[] content = new byte[lengths[i]];
            Arrays.fill(content, (byte) (i + 1));
            bytes.put((byte) 4).put((byte) 0).putInt(lengths[i]).put(content);
        }
        return bytes.array();
    }

    private static byte[] exchange(FaultProxy proxy, byte[] sent) throws IOException {
        try (Socket socket = connect(proxy)) {
            socket.getOutputStream().write(sent);
            socket.shutdownOutput();
            return socket.getInputStream().readAllBytes();
        }
    }

    @Test
    @DisplayName("passes everything on where nothing is to go wrong, and knows where each PDU ended")
    void healthy() throws IOException {
        byte[] sent = pdus(10, 0, 300);
        try (FaultProxy proxy = proxy()) {
            assertThat(exchange(proxy, sent)).isEqualTo(sent);
            assertThat(proxy.edges(0, Direction.THERE)).containsExactly(16L, 22L, 328L);
            assertThat(proxy.edges(0, Direction.BACK)).containsExactly(16L, 22L, 328L);
            assertThat(proxy.bytes(0, Direction.THERE)).isEqualTo(328);
        }
    }

    @Test
    @DisplayName("cuts after exactly that many bytes, and only on the connection it was told")
    void cut() throws IOException {
        byte[] sent = pdus(100);
        try (FaultProxy proxy = proxy(new LinkFault.Cut(Direction.BACK, 37))) {
            assertThat(exchange(proxy, sent)).isEqualTo(Arrays.copyOf(sent, 37));
            assertThat(exchange(proxy, sent)).isEqualTo(sent);
        }
    }

    @Test
    @DisplayName("cuts before the first byte")
    void cutAtZero() throws IOException {
        try (FaultProxy proxy = proxy(new LinkFault.Cut(Direction.BACK, 0));
                Socket socket = connect(proxy)) {
            assertThat(socket.getInputStream().read()).isEqualTo(-1);
        }
    }

    @Test
    @DisplayName("resets rather than closes")
    void reset() throws IOException {
        try (FaultProxy proxy = proxy(new LinkFault.Reset(Direction.THERE, 5));
                Socket socket = connect(proxy)) {
            socket.getOutputStream().write(new byte[5]);
            InputStream in = socket.getInputStream();
            IOException told = org.assertj.core.api.Assertions.catchThrowableOfType(IOException.class, () -> {
                in.readAllBytes();
            });
            assertThat(told).isInstanceOf(SocketException.class);
        }
    }

    @Test
    @DisplayName("stalls: what came before the place arrives, nothing after it, and nobody is told")
    void stall() throws IOException {
        try (FaultProxy proxy = proxy(new LinkFault.Stall(Direction.BACK, 3));
                Socket socket = connect(proxy)) {
            socket.getOutputStream().write(new byte[] {1, 2, 3, 4});
            assertThat(socket.getInputStream().readNBytes(3)).containsExactly(1, 2, 3);
            socket.setSoTimeout(200);
            assertThat(org.assertj.core.api.Assertions.catchThrowable(
                            () -> socket.getInputStream().read()))
                    .isInstanceOf(SocketTimeoutException.class);
        }
    }

    @Test
    @DisplayName("slices into pieces")
    void slice() throws IOException {
        byte[] sent = pdus(50);
        FaultSchedule schedule = new FaultSchedule(Direction.THERE, List.of(new LinkFault.Slice(Direction.THERE, 7)));
        List<FaultSchedule.Piece> pieces = schedule.pieces(sent, sent.length, new PduEdges());
        assertThat(pieces)
                .hasSize(8)
                .allSatisfy(piece -> assertThat(piece.bytes().length).isBetween(1, 7));
        try (FaultProxy proxy = proxy(new LinkFault.Slice(Direction.THERE, 7))) {
            assertThat(exchange(proxy, sent)).isEqualTo(sent);
        }
    }

    @Test
    @DisplayName("holds back a late or slow line by as much as it was told, and loses nothing of it")
    void slow() throws IOException {
        byte[] sent = pdus(94);
        FaultSchedule schedule = new FaultSchedule(
                Direction.BACK,
                List.of(
                        new LinkFault.Slow(Direction.BACK, 1000),
                        new LinkFault.Delay(Direction.BACK, java.time.Duration.ofMillis(2))));
        List<FaultSchedule.Piece> pieces = schedule.pieces(sent, sent.length, new PduEdges());
        assertThat(pieces).hasSize(1);
        assertThat(pieces.get(0).holdNanos()).isEqualTo(102_000_000L);
        try (FaultProxy proxy = proxy(new LinkFault.Slow(Direction.BACK, 100_000))) {
            assertThat(exchange(proxy, sent)).isEqualTo(sent);
        }
    }

    @Test
    @DisplayName("eats one PDU of the answer and closes behind it")
    void eatAnswer() throws IOException {
        byte[] sent = pdus(10, 20, 30);
        try (FaultProxy proxy = proxy(new LinkFault.EatAnswer(1))) {
            assertThat(exchange(proxy, sent)).isEqualTo(Arrays.copyOf(sent, 16));
        }
    }

    @Test
    @DisplayName("doubles one PDU")
    void duplicate() throws IOException {
        byte[] sent = pdus(10, 20);
        ByteArrayOutputStream expected = new ByteArrayOutputStream();
        expected.write(sent, 0, 16);
        expected.write(sent, 0, 16);
        expected.write(sent, 16, 26);
        try (FaultProxy proxy = proxy(new LinkFault.Duplicate(Direction.BACK, 0))) {
            assertThat(exchange(proxy, sent)).isEqualTo(expected.toByteArray());
        }
    }

    @Test
    @DisplayName("leaves no thread and no connection when it is closed")
    void closes() throws Exception {
        FaultProxy proxy = proxy(new LinkFault.Stall(Direction.THERE, 0), new LinkFault.Stall(Direction.BACK, 0));
        Socket socket = connect(proxy);
        CompletableFuture<Integer> reading = CompletableFuture.supplyAsync(() -> {
            try {
                return socket.getInputStream().read();
            } catch (IOException e) {
                return -1;
            }
        });
        while (proxy.standing() == 0) {
            Thread.onSpinWait();
        }
        proxy.close();
        assertThat(reading.get()).isEqualTo(-1);
        assertThat(proxy.standing()).isZero();
        assertThat(Thread.getAllStackTraces().keySet())
                .noneMatch(thread -> thread.isAlive() && thread.getName().startsWith("fault-link"));
    }
}
