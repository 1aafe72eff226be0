package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.ArchiveSession;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.Drain;
import vestibule.bridge.delivery.ReadBack;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.settings.Archive;
import vestibule.bridge.settings.ListenerSettings;
import vestibule.bridge.settings.Running;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.ServiceProvider;

/**
 * The service: a thread for each source, one that decides, one for each association to the archive, a listener for commitment reports, and
 * one that keeps house. Each stops after what it is at; what must not wait is given up and asked for at the next start.
 */
final class Service implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Service.class);
    private static final Duration BEAT = Duration.ofSeconds(5);
    private static final Duration PROMISE = Duration.ofSeconds(30);
    private static final Duration POLL = Duration.ofSeconds(1);
    private static final Duration PATIENCE = Duration.ofMinutes(1);
    private static final Duration GRACE = Duration.ofSeconds(6);
    private static final Duration LAST_GRACE = Duration.ofSeconds(3);
    private static final int COPIES_AT_A_TIME = 100;

    private final Keeping keeping;
    private final Running running;
    private final Clock clock;
    private final Originals originals;
    private final ExecutorService makers;
    private final List<Thread> threads = new ArrayList<>();
    private final List<SourceWatch> watches = new ArrayList<>();
    private final List<Delivering> deliverings = new ArrayList<>();
    private final List<Shipping> shippings = new ArrayList<>();
    private final List<Bell> bells = new ArrayList<>();
    private final Map<String, Integer> lastSteps = new HashMap<>();
    private final Map<String, Instant> standstill = new HashMap<>();
    private final Set<String> hanging = new HashSet<>();
    private final List<Supplier<List<String>>> troubles = new ArrayList<>();
    private List<String> toldTroubles = List.of();
    private @Nullable AssociationListener listener;
    private volatile boolean stopped;
    private volatile Instant lastBeat;

    /** What a service is made of, beside its home. */
    record Parts(Settings settings, Destination archive, String ourTitle, Deciding deciding, Making making) {}

    private Service(Keeping keeping, Running running, Clock clock, Originals originals) {
        this.keeping = keeping;
        this.running = running;
        this.clock = clock;
        this.originals = originals;
        this.makers = Executors.newFixedThreadPool(2, task -> new Thread(task, "maker"));
        this.lastBeat = clock.instant();
    }

    /** Starts everything; what was left by a service that died is cleared away first. */
    static Service start(Keeping keeping, Parts parts, Clock clock) throws Failure, IOException {
        Originals originals = keeping.originals();
        originals.clearArriving();
        Shipping.clearAll(keeping.objects());
        Service service = new Service(keeping, parts.settings().running(), clock, originals);
        try {
            keeping.outbox().nodes().release(keeping.node());
            keeping.outbox().nodes().alive(keeping.node(), PROMISE);
            keeping.outbox().nodes().troubled(keeping.node(), List.of());
            // Whoever starts it again may have put right what kept it
            keeping.outbox().rulings().dueNow(originals.place());
            keeping.outbox().consignments().dueNow(originals.place());
            service.startAll(parts);
            return service;
        } catch (Failure | IOException | RuntimeException e) {
            service.close();
            throw e;
        }
    }

    private void startAll(Parts parts) throws Failure, IOException {
        Bell deciding = bell();
        Bell delivering = bell();
        CommitmentDesk reports = new CommitmentDesk(keeping.outbox().commitments(), delivering::ring);
        listener = listen(reports, parts);
        for (Path folder : running.intake().folders()) {
            watch(folder, deciding::ring);
        }
        DecidingDesk desk =
                new DecidingDesk(keeping.outbox(), originals, parts.deciding(), keeping.node(), clock, backoff());
        troubles.add(desk::troubles);
        thread(
                "deciding",
                () -> loop(deciding, () -> {
                    if (desk.step(this::isSettled) > 0) {
                        delivering.ring();
                    }
                }));
        for (int i = 0; i < running.archive().associations(); i++) {
            deliver(parts, reports, i == 0 ? delivering : bell());
        }
        // Made here: the thread itself may only begin while close goes through the bells
        Bell house = bell();
        thread("house", () -> loop(house, this::keepHouse));
    }

    private Bell bell() {
        Bell bell = new Bell();
        bells.add(bell);
        return bell;
    }

    private static Backoff backoff() {
        return new Backoff(RandomGenerator.getDefault());
    }

    private @Nullable AssociationListener listen(CommitmentDesk reports, Parts parts) throws Failure, IOException {
        ListenerSettings way = parts.settings().listener();
        if (way.port().isEmpty()) {
            return null;
        }
        Set<AeTitle> callers = new HashSet<>();
        way.callers().forEach(title -> callers.add(new AeTitle(title)));
        if (callers.isEmpty()) {
            callers.add(new AeTitle(parts.archive().calledAe()));
        }
        ServiceProvider services = new ServiceProvider(List.of(new CommitmentReceiver(reports)));
        AcceptorSettings settings = AcceptorSettings.of(new AeTitle(parts.ourTitle()), services.contexts())
                .withCallers(callers);
        return services.listen(
                ProbeCommand.address(way, way.port().get()),
                way.tls() ? settings.withTls(Credentials.server(parts.settings().tls())) : settings);
    }

    private void watch(Path folder, Runnable changed) throws IOException {
        Path source = folder.toAbsolutePath().normalize();
        SourceReader reader = keeping.reader(source, originals, running.intake(), clock);
        SourceWatch watch = new SourceWatch(source, reader, running.intake(), clock, changed);
        watches.add(watch);
        thread("source-" + watches.size(), watch);
    }

    private void deliver(Parts parts, CommitmentDesk reports, Bell bell) {
        Shipping shipping = new Shipping(
                keeping.outbox(),
                originals,
                parts.making(),
                new Shipping.Manner(
                        keeping.node(),
                        keeping.objects(),
                        running.archive(),
                        parts.settings().study().rejection(),
                        clock,
                        backoff(),
                        listener != null,
                        RandomGenerator.getDefault()),
                makers);
        ArchiveSession.Line line = new ArchiveSession.Line(parts.archive(), parts.ourTitle(), Deadlines.DEFAULT);
        Drain drain = new Drain(line, shipping, reports);
        Delivering delivering =
                new Delivering(keeping.outbox(), originals, drain, readingBack(parts, line), clock, backoff());
        deliverings.add(delivering);
        shippings.add(shipping);
        troubles.add(() -> Stream.of(delivering.trouble(lastStored()), shipping.answer(lastStored()))
                .flatMap(Optional::stream)
                .toList());
        thread("delivery-" + deliverings.size(), () -> {
            loop(bell, delivering::step);
            try {
                shipping.close();
            } catch (IOException e) {
                LOG.warn("what was claimed could not be given back: {}", e.getMessage());
            }
        });
    }

    private Instant lastStored() {
        return shippings.stream()
                .map(Shipping::lastStored)
                .max(Instant::compareTo)
                .orElse(Instant.MIN);
    }

    /** One of several associations is enough for reading back. */
    private Optional<ReadingBack> readingBack(Parts parts, ArchiveSession.Line line) {
        boolean wanted = running.archive().proof() == Archive.Proof.READ_BACK;
        return wanted
                ? Optional.of(new ReadingBack(
                        keeping.outbox(),
                        originals,
                        parts.making(),
                        new TakingBack(
                                keeping.outbox().withdrawals(),
                                parts.settings().study().rejection()),
                        new ReadBack(line),
                        keeping.objects()))
                : Optional.empty();
    }

    private void thread(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        threads.add(thread);
        thread.start();
    }

    private interface Step {
        void run() throws IOException;
    }

    /** Takes steps until the end; one that fails is taken again. */
    private void loop(Bell bell, Step step) {
        while (!stopped) {
            try {
                step.run();
            } catch (IOException e) {
                LOG.warn("{}: {}", Thread.currentThread().getName(), e.getMessage());
            } catch (RuntimeException | Error e) {
                // Also where memory was short: a thread that ended would leave its photographs waiting for ever
                LOG.error("{}: a fault of ours", Thread.currentThread().getName(), e);
            }
            if (!stopped) {
                try {
                    bell.await(POLL);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    return;
                }
            }
        }
    }

    /** Whether every source was looked at and no file of it is on its way that is still to be waited for. */
    boolean isSettled() {
        return watches.stream().allMatch(watch -> watch.isSettled(PATIENCE));
    }

    private boolean isSettled(String source) {
        return watches.stream()
                .filter(watch -> watch.source().equals(source))
                .allMatch(watch -> watch.isSettled(PATIENCE));
    }

    private void keepHouse() throws IOException {
        if (Duration.between(lastBeat, clock.instant()).compareTo(BEAT) >= 0) {
            keeping.outbox().nodes().alive(keeping.node(), PROMISE);
            letCopiesGo();
            lastBeat = clock.instant();
        }
        tellTroubles();
        for (SourceWatch watch : watches) {
            lookAfter(watch);
        }
    }

    /** Whoever asks for the status is told what the log says. */
    private void tellTroubles() throws IOException {
        List<String> now = troubles.stream()
                .flatMap(told -> told.get().stream())
                .distinct()
                .toList();
        if (!now.equals(toldTroubles)) {
            keeping.outbox().nodes().troubled(keeping.node(), now);
            toldTroubles = now;
        }
    }

    /** A source that finishes no file for long hangs; its thread may, but people are told. */
    private void lookAfter(SourceWatch watch) throws IOException {
        String source = watch.source();
        Integer steps = watch.steps();
        boolean moved = watch.lookingSince().isEmpty() || !steps.equals(lastSteps.put(source, steps));
        if (moved) {
            standstill.put(source, clock.instant());
            hanging.remove(source);
            return;
        }
        Instant since = standstill.getOrDefault(source, clock.instant());
        if (clock.instant().isAfter(since.plus(running.intake().hangs())) && hanging.add(source)) {
            keeping.outbox().arrivals().trouble(source, "it has not answered since " + since);
            LOG.warn("a source has not answered since {}", since);
        }
    }

    private void letCopiesGo() throws IOException {
        Optional<Duration> kept = running.home().keepCopies();
        if (kept.isEmpty()) {
            return;
        }
        Instant moment = clock.instant().minus(kept.get());
        for (String photo : keeping.outbox().copies().committedBefore(moment, originals.place(), COPIES_AT_A_TIME)) {
            if (keeping.outbox().copies().letGo(photo)) {
                originals.delete(photo);
                LOG.info("{}: local copy deleted, its time was over", photo);
            }
        }
    }

    /** The port on which commitment reports are taken. */
    Optional<Integer> reportPort() {
        AssociationListener open = listener;
        return open == null ? Optional.empty() : Optional.of(open.address().getPort());
    }

    Keeping keeping() {
        return keeping;
    }

    Originals originals() {
        return originals;
    }

    /** Whether every thread runs and the house has been kept lately. */
    boolean isLive() {
        return threads.stream().allMatch(Thread::isAlive)
                && Duration.between(lastBeat, clock.instant()).compareTo(PROMISE) < 0;
    }

    /** Sources that hang. */
    int hanging() {
        return hanging.size();
    }

    /** Sources of which the last look did not reach everything, that are not there, or that hang. */
    long unreached() {
        return watches.stream()
                .filter(watch -> watch.isUnreached() || hanging.contains(watch.source()))
                .count();
    }

    /** Whether nothing is taken in for want of room. */
    boolean isFull() throws IOException {
        return originals.isFull();
    }

    /** How often in a row the archive could not be reached. */
    int archiveFailures() {
        return deliverings.stream().mapToInt(Delivering::failures).max().orElse(0);
    }

    /** Stops: every thread ends after what it is at, within ten seconds. */
    @Override
    public void close() {
        stopped = true;
        watches.forEach(SourceWatch::stop);
        deliverings.forEach(Delivering::stop);
        bells.forEach(Bell::ring);
        AssociationListener open = listener;
        try {
            if (!await(GRACE)) {
                LOG.info("what is being sent is given up; the archive is asked for it at the next start");
                deliverings.forEach(Delivering::cut);
                threads.forEach(Thread::interrupt);
                await(LAST_GRACE);
            }
            if (open != null) {
                open.close(LAST_GRACE);
            }
            makers.shutdownNow();
            if (!makers.awaitTermination(LAST_GRACE.toMillis(), TimeUnit.MILLISECONDS)) {
                LOG.info("an object is still being made; it is made again at the next start");
            }
            Shipping.clearAll(keeping.objects());
            keeping.outbox().nodes().ended(keeping.node());
        } catch (IOException e) {
            LOG.warn("the end could not be recorded, the next start takes over: {}", e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private boolean await(Duration most) throws InterruptedException {
        long end = System.nanoTime() + most.toNanos();
        for (Thread thread : threads) {
            long left = end - System.nanoTime();
            if (left > 0) {
                TimeUnit.NANOSECONDS.timedJoin(thread, left);
            }
        }
        return threads.stream().noneMatch(Thread::isAlive);
    }
}
