package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Threads and sockets of this process, before and after (sockets and selectors by {@code /proc}, where there is one). */
public final class Leftovers {

    private static final String OURS = "raw-peer|name look-up|probe|association.*|fault-.*|maker|taker";
    private static final Path HANDLES = Path.of("/proc/self/fd");
    private static final Duration PATIENCE = Duration.ofSeconds(10);
    private static final long STEP = Duration.ofMillis(5).toNanos();

    private final Set<Thread> threads = threads();
    private final Set<String> handles = handles();

    private static Set<Thread> threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().matches(OURS))
                .collect(Collectors.toSet());
    }

    private static Set<String> handles() {
        if (!Files.isDirectory(HANDLES)) {
            return Set.of();
        }
        try (Stream<Path> all = Files.list(HANDLES)) {
            return all.map(Leftovers::target)
                    .filter(target -> target.startsWith("socket:"))
                    .collect(Collectors.toCollection(TreeSet::new));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static String target(Path handle) {
        try {
            return Files.readSymbolicLink(handle).toString();
        } catch (IOException closedMeanwhile) {
            return "closed";
        }
    }

    /** Waits until nothing is left that was not there before. */
    public void assertNothingIsLeft() {
        long end = System.nanoTime() + PATIENCE.toNanos();
        while (System.nanoTime() - end < 0
                && !(more().isEmpty() && moreHandles().isEmpty())) {
            LockSupport.parkNanos(STEP);
        }
        assertThat(more()).as("threads that are left").isEmpty();
        assertThat(moreHandles()).as("sockets that are left").isEmpty();
    }

    /** Waits until no socket is left that was not there before; threads of a pool may wait for more work. */
    public void assertNoSocketIsLeft() {
        long end = System.nanoTime() + PATIENCE.toNanos();
        while (System.nanoTime() - end < 0 && !moreHandles().isEmpty()) {
            LockSupport.parkNanos(STEP);
        }
        assertThat(moreHandles()).as("sockets that are left").isEmpty();
    }

    private Set<Thread> more() {
        Set<Thread> now = threads();
        now.removeAll(threads);
        return now;
    }

    private Set<String> moreHandles() {
        Set<String> now = new TreeSet<>(handles());
        now.removeAll(handles);
        return now;
    }
}
