package vestibule.dicom.net;

import java.time.Duration;
import java.util.concurrent.TimeUnit;

/**
 * A moment after which a wait is over.
 *
 * @param nanoTime the moment on the clock of {@link System#nanoTime}
 */
record Deadline(long nanoTime) {

    static Deadline after(Duration duration) {
        return new Deadline(System.nanoTime() + TimeUnit.NANOSECONDS.convert(duration));
    }

    boolean hasPassed() {
        return nanoTime - System.nanoTime() <= 0;
    }

    /** Milliseconds to wait, at least one, so that a selector never takes it for “for ever”. */
    long millisLeft() {
        return Math.max(1, TimeUnit.NANOSECONDS.toMillis(nanoTime - System.nanoTime() + 999_999));
    }

    Deadline earlier(Deadline other) {
        return nanoTime - other.nanoTime <= 0 ? this : other;
    }
}
