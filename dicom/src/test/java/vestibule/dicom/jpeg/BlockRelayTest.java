package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@DisplayName("Batches of blocks on their way from the thread that reads to the one that encodes")
@Timeout(60)
class BlockRelayTest {

    private static final int BATCHES = 500;
    private static final int MOST = 4;

    /** Says which batch it is. */
    private static final class Batch {
        private int number;
    }

    private final List<Integer> taken = new ArrayList<>();
    private final AtomicInteger made = new AtomicInteger();

    private BlockRelay<Batch> relay(BlockRelay.Taker<Batch> taker) {
        return new BlockRelay<>(
                MOST,
                () -> {
                    made.incrementAndGet();
                    return new Batch();
                },
                taker);
    }

    private static void hand(BlockRelay<Batch> relay, int number) throws IOException {
        Batch batch = relay.batch();
        batch.number = number;
        relay.hand(batch);
    }

    private static void handAll(BlockRelay<Batch> relay) throws IOException {
        for (int number = 0; number < BATCHES; number++) {
            hand(relay, number);
        }
        relay.finish();
    }

    @Test
    @DisplayName("each is taken once, in the order of handing over, and never two at a time")
    void order() throws IOException {
        AtomicInteger atWork = new AtomicInteger();
        Set<Integer> most = new HashSet<>();
        handAll(relay(batch -> {
            most.add(atWork.incrementAndGet());
            taken.add(batch.number);
            atWork.decrementAndGet();
        }));
        assertThat(taken)
                .containsExactlyElementsOf(IntStream.range(0, BATCHES).boxed().toList());
        assertThat(most).containsExactly(1);
        assertThat(made).as("batches are used again").hasValueLessThan(8);
    }

    @Test
    @DisplayName("where no thread is free the one that reads does the work")
    void nobodyIsFree() throws IOException {
        CountDownLatch through = new CountDownLatch(1);
        List<ForkJoinTask<?>> busy = new ArrayList<>();
        for (int i = 0; i < ForkJoinPool.getCommonPoolParallelism(); i++) {
            busy.add(ForkJoinPool.commonPool().submit(() -> awaitQuietly(through)));
        }
        Set<Thread> threads = new HashSet<>();
        try {
            handAll(relay(batch -> {
                threads.add(Thread.currentThread());
                taken.add(batch.number);
            }));
        } finally {
            through.countDown();
            busy.forEach(ForkJoinTask::join);
        }
        assertThat(taken).hasSize(BATCHES);
        assertThat(threads).containsExactly(Thread.currentThread());
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    @DisplayName("what goes wrong with one is told to the thread that reads, and nothing after it is taken")
    void failure() {
        BlockRelay<Batch> relay = relay(batch -> {
            taken.add(batch.number);
            if (batch.number == 7) {
                throw new JpegFormatException(0, "begins a coefficient too many.");
            }
        });
        assertThatThrownBy(() -> handAll(relay))
                .isInstanceOf(JpegFormatException.class)
                .hasMessageContaining("a coefficient too many");
        assertThat(taken)
                .containsExactlyElementsOf(IntStream.rangeClosed(0, 7).boxed().toList());
    }

    @Test
    @DisplayName("want of memory comes through as what it is")
    void error() {
        BlockRelay<Batch> relay = relay(batch -> {
            throw new OutOfMemoryError("made up");
        });
        assertThatThrownBy(() -> handAll(relay)).isInstanceOf(OutOfMemoryError.class);
    }

    @Test
    @DisplayName("a thread that is interrupted while it waits for the other says so")
    void interrupted() throws IOException {
        CountDownLatch begun = new CountDownLatch(1);
        CountDownLatch through = new CountDownLatch(1);
        BlockRelay<Batch> relay = relay(batch -> {
            begun.countDown();
            awaitQuietly(through);
        });
        Thread other = new Thread(() -> {
            try {
                hand(relay, 0);
                relay.finish();
            } catch (IOException e) {
                throw new AssertionError(e);
            }
        });
        other.start();
        awaitQuietly(begun);
        Thread.currentThread().interrupt();
        assertThatThrownBy(relay::finish).isInstanceOf(InterruptedIOException.class);
        assertThat(Thread.interrupted()).isTrue();
        through.countDown();
        join(other);
    }

    private static void join(Thread thread) {
        try {
            thread.join();
        } catch (InterruptedException e) {
            throw new AssertionError(e);
        }
    }
}
