package vestibule.bridge.app;

import java.time.Duration;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/** Wakes a thread that waits for something to do. A ring that nobody heard is kept. */
final class Bell {

    private final ReentrantLock lock = new ReentrantLock();
    private final Condition rung = lock.newCondition();
    private boolean ringing;

    /** Rings. */
    void ring() {
        lock.lock();
        try {
            ringing = true;
            rung.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Waits for a ring, at most that long. */
    void await(Duration most) throws InterruptedException {
        lock.lock();
        try {
            long left = most.toNanos();
            while (!ringing && left > 0) {
                left = rung.awaitNanos(left);
            }
            ringing = false;
        } finally {
            lock.unlock();
        }
    }
}
