package vestibule.conformance.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.concurrent.locks.LockSupport;

/** Waiting for another process, with an end. */
final class Deadline {

    private static final Duration STEP = Duration.ofMillis(20);

    /** A question that may fail while the other side is not ready. */
    interface Question {
        boolean ask() throws IOException;
    }

    private Deadline() {}

    /** Asks until the answer is yes. */
    static void await(Duration atMost, String what, Question question) {
        long end = System.nanoTime() + atMost.toNanos();
        String last = "no";
        while (System.nanoTime() < end) {
            try {
                if (question.ask()) {
                    return;
                }
            } catch (IOException e) {
                last = String.valueOf(e.getMessage());
            }
            LockSupport.parkNanos(STEP.toNanos());
        }
        throw new AssertionError(
                "%s: not within %d s; the last answer was: %s".formatted(what, atMost.toSeconds(), last));
    }

    /** A port that nobody listens on at this moment. */
    static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }
}
