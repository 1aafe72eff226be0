package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.ClosedWatchServiceException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.intake.SourceReader.Look;
import vestibule.bridge.settings.Intake;

/**
 * Watches one card or folder on a thread of its own, so that one that hangs holds nobody up. What the system tells of changes only makes
 * the next look come sooner: network folders tell nothing (common practice, no source), and looking again is what finds everything.
 */
final class SourceWatch implements Runnable {

    private static final Logger LOG = LoggerFactory.getLogger(SourceWatch.class);
    private static final int MOST_FOLDERS = 500;
    private static final Duration AFTER_FAULT = Duration.ofSeconds(5);

    private final Path source;
    private final String name;
    private final SourceReader reader;
    private final Intake settings;
    private final Clock clock;
    private final Runnable changed;
    private final Bell bell = new Bell();
    private volatile boolean stopped;
    private volatile @Nullable Instant lookingSince;
    private volatile boolean unsettled = true;
    private volatile boolean unreached;
    private int leftBehind;
    private volatile Instant unsettledSince;
    private @Nullable WatchService hints;

    /**
     * @param changed is run after each look that took something in
     */
    SourceWatch(Path source, SourceReader reader, Intake settings, Clock clock, Runnable changed) {
        this.source = source;
        this.name = reader.name();
        this.reader = reader;
        this.settings = settings;
        this.clock = clock;
        this.changed = changed;
        this.unsettledSince = clock.instant();
    }

    String source() {
        return name;
    }

    /** How many files have been looked at; stands still when the source hangs. */
    int steps() {
        return reader.steps();
    }

    /** Since when a look has been going on. */
    Optional<Instant> lookingSince() {
        return Optional.ofNullable(lookingSince);
    }

    /** Whether its photographs may be decided: no file is on its way, but those that have been for long, or a look takes longer than that. */
    boolean isSettled(Duration patience) {
        return !unsettled || clock.instant().isAfter(unsettledSince.plus(patience));
    }

    /** Whether the last look did not reach everything there. */
    boolean isUnreached() {
        return unreached;
    }

    void stop() {
        stopped = true;
        reader.stop();
        bell.ring();
    }

    @Override
    public void run() {
        try (WatchService service = source.getFileSystem().newWatchService()) {
            hints = service;
            loop();
        } catch (IOException | UnsupportedOperationException e) {
            LOG.info(
                    "the system tells nothing of changes; looking every {} s",
                    settings.rescan().toSeconds());
            hints = null;
            loop();
        }
    }

    private void loop() {
        while (!stopped && !Thread.currentThread().isInterrupted()) {
            Duration pause;
            try {
                lookingSince = clock.instant();
                pause = look();
            } catch (IOException e) {
                LOG.warn("a source could not be taken in: {}", e.getClass().getSimpleName());
                pause = AFTER_FAULT;
            } catch (RuntimeException | Error e) {
                LOG.error("a source was not taken in by a fault of ours", e);
                pause = settings.rescan();
            }
            lookingSince = null;
            pause(pause);
        }
    }

    private Duration look() throws IOException {
        Look look = reader.look();
        tellReached(look.trouble().isEmpty());
        boolean awaiting = look.awaited() > 0 && look.trouble().isEmpty();
        // A file that came just now is waited for however long others came before it
        unsettled = look.awaited() > look.late() && look.trouble().isEmpty();
        unsettledSince = clock.instant();
        if (!look.taken().isEmpty() || !look.known().isEmpty()) {
            LOG.info(
                    "{} photographs taken in, {} known before",
                    look.taken().size(),
                    look.known().size());
        }
        if (look.leftBehind().size() > leftBehind) {
            LOG.warn(
                    "{} files were not taken in; vestibule status names them",
                    look.leftBehind().size());
        }
        leftBehind = look.leftBehind().size();
        look.taken().forEach(told -> LOG.debug("{}: taken in", told.what()));
        if (!look.taken().isEmpty()) {
            changed.run();
        }
        return awaiting || !look.leftBehind().isEmpty() ? settings.settle() : settings.rescan();
    }

    /** Said once each way, and without the name of a folder, which may be that of a patient; cards come and go, so it is no warning. */
    private void tellReached(boolean reached) {
        if (reached && unreached) {
            LOG.info("a card or folder is reached to its end again");
        } else if (!reached && !unreached) {
            LOG.info("a card or folder was not reached to its end; vestibule status says which and why");
        }
        unreached = !reached;
    }

    private void pause(Duration most) {
        try {
            WatchService service = hints;
            if (service == null || !register(service)) {
                bell.await(most);
                return;
            }
            long slices = Math.max(1, most.toMillis() / 250);
            WatchKey key = null;
            for (long i = 0; i < slices && key == null && !stopped; i++) {
                key = service.poll(250, TimeUnit.MILLISECONDS);
            }
            while (key != null) {
                key.pollEvents();
                key.reset();
                key = service.poll();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ClosedWatchServiceException e) {
            hints = null;
        }
    }

    /** Registers every folder that is there now; false if the source is not there. */
    private boolean register(WatchService service) {
        int[] folders = {0};
        try {
            Files.walkFileTree(source, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes)
                        throws IOException {
                    folder.register(
                            service, StandardWatchEventKinds.ENTRY_CREATE, StandardWatchEventKinds.ENTRY_MODIFY);
                    folders[0]++;
                    return folders[0] < MOST_FOLDERS ? FileVisitResult.CONTINUE : FileVisitResult.TERMINATE;
                }
            });
        } catch (IOException e) {
            LOG.debug(
                    "not everything in a source tells of changes: {}",
                    e.getClass().getSimpleName());
        }
        return folders[0] > 0;
    }
}
