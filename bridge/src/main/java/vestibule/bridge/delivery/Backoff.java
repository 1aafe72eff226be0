package vestibule.bridge.delivery;

import java.time.Duration;
import java.util.random.RandomGenerator;

/** How long to wait after failures in a row: twice as long each time, and never the same for two who failed together. */
public final class Backoff {

    private static final Duration FIRST = Duration.ofSeconds(5);
    private static final Duration LONGEST = Duration.ofMinutes(5);
    private static final int DOUBLINGS = 10;

    private final RandomGenerator random;

    /** With that source of jitter. */
    public Backoff(RandomGenerator random) {
        this.random = random;
    }

    /**
     * The next pause, between three quarters and five quarters of its step.
     *
     * @param failures how many failures in a row, at least one
     */
    public Duration after(int failures) {
        Duration step = FIRST.multipliedBy(1L << Math.min(Math.max(failures, 1) - 1, DOUBLINGS));
        Duration bounded = step.compareTo(LONGEST) < 0 ? step : LONGEST;
        return Duration.ofMillis((long) (bounded.toMillis() * (0.75 + random.nextDouble() / 2)));
    }
}
