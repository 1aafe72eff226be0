package vestibule.dicom.net;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/** A peer that takes one connection and plays a script on it. What goes wrong in the script fails the test when the peer is closed. */
public final class ScriptedPeer implements AutoCloseable {

    /** What the peer does; the connection is closed at its end. */
    public interface Script {
        void play(Wire wire) throws Exception;
    }

    private final ServerSocket server;
    private final FutureTask<Void> playing;

    private ScriptedPeer(ServerSocket server, Script script) {
        this.server = server;
        this.playing = new FutureTask<>(() -> {
            try (Wire wire = new Wire(server.accept())) {
                script.play(wire);
            }
            return null;
        });
        new Thread(playing, "scripted-peer").start();
    }

    public static ScriptedPeer playing(Script script) throws IOException {
        return new ScriptedPeer(new ServerSocket(0, 1, InetAddress.getLoopbackAddress()), script);
    }

    public ApplicationEntity entity() {
        return new ApplicationEntity(new AeTitle("SCRIPTED"), "127.0.0.1", server.getLocalPort());
    }

    @Override
    public void close() throws IOException {
        try {
            playing.get(20, TimeUnit.SECONDS);
        } catch (ExecutionException e) {
            throw new AssertionError("the script failed", e.getCause());
        } catch (InterruptedException | TimeoutException e) {
            throw new AssertionError("the script did not end", e);
        } finally {
            server.close();
        }
    }
}
