package vestibule.bridge.intake;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executor;
import java.util.concurrent.FutureTask;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Looks at one card or folder, again and again, and takes in what is whole: a file that two looks, some time apart, found of the same
 * length and time, and that is a JPEG from its first marker to its last. The source is only ever read. Used by one thread, which has
 * others take files.
 */
public final class SourceReader {

    private static final Logger LOG = LoggerFactory.getLogger(SourceReader.class);
    private static final Duration LATE = Duration.ofMinutes(1);
    private static final Duration LONGEST_RETRY = Duration.ofMinutes(5);
    private static final String FAULT =
            "a fault of this program kept it from being taken in; it is tried again, please report it";
    private static final int AT_ONCE = 2;
    private static final Duration IDLE = Duration.ofSeconds(30);

    private final Path source;
    private final Register register;
    private final Taking taking;
    private final LeaveAlone leaveAlone;
    private final Duration settle;
    private final Executor takers;
    private final Clock clock;
    private final Map<String, Watched> watched = new HashMap<>();
    private volatile boolean stopped;
    private final AtomicInteger steps = new AtomicInteger();

    /** What is known of a file from earlier looks. */
    private static final class Watched {
        private Listing.Entry entry;
        private Instant since;
        private Instant seen;
        private boolean done;
        private int failures;
        private Instant again;

        Watched(Listing.Entry entry, Instant since) {
            this.entry = entry;
            this.since = since;
            this.seen = since;
            this.again = since;
        }

        /** The same file, which is to be waited for once more. */
        Watched anew(Listing.Entry changed, Instant now) {
            Watched anew = new Watched(changed, now);
            anew.seen = seen;
            return anew;
        }
    }

    /**
     * What one look came to.
     *
     * @param taken photographs that are new
     * @param known files whose bytes were taken in before
     * @param leftBehind files that were not taken in, with the reason
     * @param awaited how many files are not settled yet
     * @param late how many of them have been awaited for so long that the others need not wait for them
     * @param trouble why the look did not reach everything
     */
    public record Look(
            List<Told> taken,
            List<Told> known,
            List<Told> leftBehind,
            int awaited,
            int late,
            Optional<String> trouble) {
        public Look {
            taken = List.copyOf(taken);
            known = List.copyOf(known);
            leftBehind = List.copyOf(leftBehind);
        }
    }

    /** A file and what became of it: the hash of its photograph, or a sentence. */
    public record Told(String name, String what) {}

    /**
     * How a reader goes about it.
     *
     * @param settle how long a file must stay as it is before it is read
     * @param glance looks at each photograph
     * @param takers take files, a few ahead of the one that is told of next; for this source alone, since a source may hang
     */
    public record Manner(LeaveAlone leaveAlone, Duration settle, Glance glance, Executor takers) {

        /** With two threads, which end when there has been nothing to take for a while. */
        public Manner(LeaveAlone leaveAlone, Duration settle, Glance glance) {
            this(leaveAlone, settle, glance, twoThreads());
        }

        private static Executor twoThreads() {
            ThreadPoolExecutor takers = new ThreadPoolExecutor(
                    AT_ONCE, AT_ONCE, IDLE.toSeconds(), TimeUnit.SECONDS, new LinkedBlockingQueue<>(), task -> {
                        Thread thread = new Thread(task, "taker");
                        thread.setDaemon(true);
                        return thread;
                    });
            takers.allowCoreThreadTimeOut(true);
            return takers;
        }
    }

    private record Started(Listing.Entry file, Watched known, FutureTask<Taking.Outcome> outcome) {}

    /** Reads that source into those originals. */
    public SourceReader(Path source, Originals originals, Register register, Manner manner, Clock clock) {
        this.source = source;
        this.register = register;
        this.taking = new Taking(originals, register, manner.glance());
        this.leaveAlone = manner.leaveAlone();
        this.settle = manner.settle();
        this.takers = manner.takers();
        this.clock = clock;
    }

    /** What the source is called, by whoever remembers what was taken in. */
    public String name() {
        return register.source();
    }

    /** Has a look that is going on end after its current file. */
    public void stop() {
        stopped = true;
    }

    /** Grows with every file that is looked at; where it stands still in the middle of a look, the source hangs. */
    public int steps() {
        return steps.get();
    }

    /** Looks once. */
    public Look look() throws IOException {
        Gathered gathered = new Gathered();
        Listing listing = Listing.of(source, leaveAlone);
        if (listing.trouble().isPresent()) {
            // Whatever comes back in its place may be another card with the same names.
            watched.clear();
            gathered.trouble = listing.trouble().get();
        } else {
            register.lies(listing.files());
            forgetGone(listing);
        }
        Deque<Started> started = new ArrayDeque<>();
        for (Listing.Entry file : listing.files()) {
            if (stopped || gathered.storeFails) {
                break;
            }
            steps.incrementAndGet();
            due(file).ifPresent(known -> started.add(start(file, known)));
            if (started.size() > AT_ONCE) {
                finish(started.remove(), gathered);
            }
        }
        while (!started.isEmpty()) {
            finish(started.remove(), gathered);
        }
        remember(listing, gathered);
        return gathered.look();
    }

    private boolean isLate(Watched known) {
        return !clock.instant().isBefore(known.seen.plus(settle).plus(LATE));
    }

    private Started start(Listing.Entry file, Watched known) {
        FutureTask<Taking.Outcome> outcome = new FutureTask<>(() -> taking.take(file));
        takers.execute(outcome);
        return new Started(file, known, outcome);
    }

    private void remember(Listing listing, Gathered gathered) throws IOException {
        for (Listing.Entry file : listing.files()) {
            Watched known = watched.get(file.name());
            if (known == null || !known.done) {
                gathered.awaited++;
                if (known != null && gathered.trouble == null && isLate(known)) {
                    // Whoever waits no longer has to know of it: it may be the card before what was taken in
                    register.unread(file);
                    register.leftBehind(file, "it is not whole yet");
                    gathered.late++;
                }
            }
        }
        if (gathered.trouble != null) {
            register.trouble(gathered.trouble);
        } else if (gathered.awaited > 0) {
            register.trouble(
                    gathered.awaited == 1
                            ? "1 file is not whole yet"
                            : "%d files are not whole yet".formatted(gathered.awaited));
        } else {
            register.looked();
        }
    }

    private void forgetGone(Listing listing) throws IOException {
        Set<String> there = new HashSet<>();
        listing.files().forEach(file -> there.add(file.name()));
        watched.keySet().retainAll(there);
        register.gone(
                register.names().stream().filter(name -> !there.contains(name)).toList());
    }

    /** What is known of a file that is to be taken now. */
    private Optional<Watched> due(Listing.Entry file) {
        Instant now = clock.instant();
        Watched known = watched.computeIfAbsent(file.name(), name -> new Watched(file, now));
        if (!known.entry.sameAs(file)) {
            watched.put(file.name(), known.done ? new Watched(file, now) : known.anew(file, now));
            return Optional.empty();
        }
        boolean rests = (known.done && known.failures == 0)
                || now.isBefore(known.since.plus(settle))
                || now.isBefore(known.again);
        return rests ? Optional.empty() : Optional.of(known);
    }

    /**
     * Records what became of a file, in the order of names: what stands recorded when something fails has no gap, in which a patient card
     * might be.
     */
    private void finish(Started started, Gathered gathered) throws IOException {
        try {
            Taking.Outcome outcome = outcome(started);
            if (gathered.storeFails) {
                return;
            }
            told(started.file(), started.known(), outcome, gathered);
        } catch (FaultException e) {
            LOG.error("a file was not taken in by a fault of ours, the others are", e);
            told(started.file(), started.known(), new Taking.Outcome.NotWhole(FAULT), gathered);
        } catch (StoreException e) {
            gathered.storeFails = true;
            gathered.trouble = String.valueOf(e.getMessage());
            LOG.warn("nothing is taken in for now: {}", e.getMessage());
        } catch (SourceException e) {
            gathered.trouble = String.valueOf(e.getMessage());
            // Those after it are taken in, and it may be the card before them; what is no longer there is before none
            if (Files.exists(started.file().path())) {
                register.unread(started.file());
            }
            watched.put(started.file().name(), started.known().anew(started.file(), clock.instant()));
        }
        steps.incrementAndGet();
    }

    private static Taking.Outcome outcome(Started started) throws IOException, FaultException {
        try {
            return started.outcome().get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("the program ends");
        } catch (ExecutionException e) {
            Throwable cause = e.getCause();
            if (cause instanceof IOException failure) {
                throw failure;
            }
            throw new FaultException(cause);
        }
    }

    /** Something went wrong that is neither the file's fault nor the disk's. */
    private static final class FaultException extends Exception {
        private static final long serialVersionUID = 1;

        FaultException(@Nullable Throwable cause) {
            super(cause);
        }
    }

    private void told(Listing.Entry file, Watched known, Taking.Outcome outcome, Gathered gathered) throws IOException {
        if (outcome instanceof Taking.Outcome.Safe safe) {
            boolean fresh = register.taken(file, safe.photo(), safe.seen());
            settled(known);
            (fresh ? gathered.taken : gathered.known).add(new Told(file.name(), safe.photo()));
        } else if (outcome instanceof Taking.Outcome.Other other) {
            settled(known);
            if (other.maybeCard()) {
                register.unread(file);
            } else {
                register.noCard(file);
            }
            register.leftBehind(file, other.sentence());
            gathered.leftBehind.add(new Told(file.name(), other.sentence()));
        } else if (outcome instanceof Taking.Outcome.NotWhole notWhole) {
            tryAgain(known);
            register.unread(file);
            register.leftBehind(file, notWhole.sentence());
            gathered.leftBehind.add(new Told(file.name(), notWhole.sentence()));
        } else {
            watched.put(file.name(), known.anew(file, clock.instant()));
        }
    }

    private static void settled(Watched known) {
        known.done = true;
        known.failures = 0;
    }

    /** A file may come to be whole without a change of length or time, so it is read again, less and less often. */
    private void tryAgain(Watched known) {
        known.done = true;
        Duration pause = settle.multipliedBy(1L << Math.min(known.failures, 10));
        known.failures++;
        known.again = clock.instant().plus(pause.compareTo(LONGEST_RETRY) < 0 ? pause : LONGEST_RETRY);
    }

    private static final class Gathered {
        private final List<Told> taken = new ArrayList<>();
        private final List<Told> known = new ArrayList<>();
        private final List<Told> leftBehind = new ArrayList<>();
        private @Nullable String trouble;
        private boolean storeFails;
        private int awaited;
        private int late;

        Look look() {
            return new Look(taken, known, leftBehind, awaited, late, Optional.ofNullable(trouble));
        }
    }
}
