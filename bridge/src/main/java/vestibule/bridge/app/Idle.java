package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;

/** Waits until no photograph is on its way any more, neither from a source nor to the archive. */
final class Idle {

    private static final Logger LOG = LoggerFactory.getLogger(Idle.class);
    private static final int EVERY = 100;

    private final Overview overview;
    private final String place;
    private final Clock clock;
    private final BooleanSupplier settled;

    /**
     * @param place which folder of originals is ours
     * @param settled whether every source was looked at and no file of it is still on its way
     */
    Idle(Overview overview, String place, Clock clock, BooleanSupplier settled) {
        this.overview = overview;
        this.place = place;
        this.clock = clock;
        this.settled = settled;
    }

    /** Returns when nothing waits, nothing is to be decided again and nothing is uncommitted, or when the latch opens; the log says which. */
    void await(CountDownLatch stop) throws IOException {
        boolean stopped = false;
        try {
            while (!stopped && isBusy()) {
                stopped = stop.await(EVERY, TimeUnit.MILLISECONDS);
            }
        } catch (InterruptedException e) {
            stopped = true;
            Thread.currentThread().interrupt();
        }
        LOG.info(stopped ? "stopped before it was idle, at {}" : "idle at {}", clock.instant());
    }

    private boolean isBusy() throws IOException {
        // What is to be decided is asked first: once it is decided it shows in the counts
        if (!settled.getAsBoolean() || overview.isDeciding(place)) {
            return true;
        }
        Map<PhotoState, Integer> counts = overview.counts();
        return counts.containsKey(PhotoState.WAITING) || counts.containsKey(PhotoState.SENT);
    }
}
