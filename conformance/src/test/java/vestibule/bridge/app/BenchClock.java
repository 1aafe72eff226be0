package vestibule.bridge.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock that a proof moves. */
public final class BenchClock extends Clock {

    private volatile Instant now = Instant.parse("2026-03-12T08:00:00Z");

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return this;
    }

    @Override
    public Instant instant() {
        return now;
    }

    public void pass(Duration time) {
        now = now.plus(time);
    }
}
