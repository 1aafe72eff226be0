package vestibule.dicom.net;

import java.io.Closeable;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * A connection that carries bytes both ways (PS3.8 9.1); every wait ends at a deadline with a {@link SocketTimeoutException}. Used by one
 * thread, but for {@link #stop} and {@link #close}.
 */
interface Transport extends Closeable {

    /** How soon a thread that waits is asked to stop. */
    enum Stop {
        /** Not at all. */
        NEVER,
        /** As soon as it waits for a message of which nothing has come yet. */
        WHEN_IDLE,
        /** At any wait. */
        NOW
    }

    /** The wait was ended by {@link #stop}. */
    final class StoppedException extends InterruptedIOException {
        private static final long serialVersionUID = 1L;

        StoppedException() {
            super("we are shutting down");
        }
    }

    /**
     * Waits for bytes.
     *
     * @param idle whether nothing of a message has come yet, so that a stop {@link Stop#WHEN_IDLE} ends the wait
     * @return how many bytes were read, at least one, or -1 at the end
     */
    int read(ByteBuffer target, Deadline deadline, boolean idle) throws IOException;

    /** Reads what is there without waiting; 0 if nothing is, -1 at the end. */
    int readNow(ByteBuffer target) throws IOException;

    /** Writes everything in a buffer; without a byte moving it waits as long as {@code stall}. */
    void write(ByteBuffer source, Deadline deadline, Duration stall) throws IOException;

    /** Asks the thread that uses this to stop. */
    void stop(Stop when);

    /** The address of the peer, for logs. */
    String remote();

    /** Closes the connection at once; whoever waits is woken. */
    @Override
    void close();

    /** Closes a resource of which nothing more is wanted, and keeps what went wrong for a reader of the log only. */
    static void closeQuietly(org.slf4j.Logger log, @Nullable Closeable resource) {
        if (resource == null) {
            return;
        }
        try {
            resource.close();
        } catch (IOException e) {
            log.debug("closing a connection failed", e);
        }
    }
}
