package vestibule.dicom.jpeg;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.ForkJoinPool;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Has what one thread reads of a picture encoded by another one, a batch of blocks at a time and in their order. Where no thread
 * is free the one that reads encodes too, so nothing ever waits for a thread that may not come. Where reading fails, what was handed over
 * may still be taken for a moment, and nobody looks at it.
 *
 * @param <B> what many blocks are handed over in; used again and again
 */
final class BlockRelay<B> {
    /** Does with a batch what is to be done; never called by two threads at once. */
    interface Taker<B> {
        void take(B batch) throws IOException;
    }

    private final int most;
    private final Supplier<B> maker;
    private final Taker<B> taker;
    private final Deque<B> waiting = new ArrayDeque<>();
    private final Deque<B> spare = new ArrayDeque<>();
    private boolean busy;
    private boolean called;
    private @Nullable Throwable failure;

    /**
     * @param most as many batches lie here before the thread that reads lends a hand
     * @param maker makes an empty batch
     */
    BlockRelay(int most, Supplier<B> maker, Taker<B> taker) {
        this.most = most;
        this.maker = maker;
        this.taker = taker;
    }

    /** An empty batch, or one that was used before. */
    synchronized B batch() {
        B batch = spare.poll();
        return batch == null ? maker.get() : batch;
    }

    /** Hands over a batch. */
    void hand(B batch) throws IOException {
        boolean calls;
        boolean full;
        synchronized (this) {
            check();
            waiting.add(batch);
            calls = !busy && !called;
            called |= calls;
            full = waiting.size() >= most;
        }
        if (calls) {
            ForkJoinPool.commonPool().execute(this::takeAll);
        }
        if (full) {
            takeUntil(most - 1);
        }
    }

    /** Returns when all that was handed over has been taken. */
    void finish() throws IOException {
        takeUntil(0);
        synchronized (this) {
            check();
        }
    }

    private void takeAll() {
        synchronized (this) {
            called = false;
        }
        boolean more = true;
        while (more) {
            more = takeOne();
        }
    }

    /** Takes batches here, or waits for whoever does, until so few are left. */
    private void takeUntil(int left) throws IOException {
        while (!isDown(left)) {
            if (!takeOne()) {
                await(left);
            }
        }
    }

    private synchronized boolean isDown(int left) {
        return waiting.size() <= left && (left > 0 || !busy);
    }

    private synchronized void await(int left) throws IOException {
        try {
            while (busy && !isDown(left)) {
                wait();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("interrupted while a picture was read");
        }
    }

    /** Takes the first batch unless somebody is at one; returns whether it did. */
    private boolean takeOne() {
        B batch;
        synchronized (this) {
            batch = busy ? null : waiting.poll();
            if (batch == null) {
                return false;
            }
            busy = true;
        }
        @Nullable Throwable thrown = null;
        try {
            taker.take(batch);
        } catch (IOException | RuntimeException | Error e) {
            // Told to the thread that hands over, which is the one that somebody waits for
            thrown = e;
        }
        synchronized (this) {
            busy = false;
            spare.push(batch);
            if (thrown != null) {
                failure = failure == null ? thrown : failure;
                waiting.clear();
            }
            notifyAll();
        }
        return true;
    }

    private void check() throws IOException {
        if (failure instanceof IOException failed) {
            throw failed;
        }
        if (failure instanceof Error failed) {
            throw failed;
        }
        if (failure instanceof RuntimeException failed) {
            throw failed;
        }
    }
}
