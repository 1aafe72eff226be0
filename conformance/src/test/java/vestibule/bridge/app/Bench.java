package vestibule.bridge.app;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.AbstractExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import vestibule.bridge.delivery.ArchiveSession;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.Drain;
import vestibule.bridge.delivery.ReadBack;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.settings.SettingsException;
import vestibule.conformance.fault.Oracle;
import vestibule.conformance.fault.ScanHash;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.ServiceProvider;

/**
 * The bridge on a bench: the same parts as the service is made of, their steps taken one after another on the thread of the proof, with its
 * clock. A step that takes the service minutes of waiting takes no time here.
 */
final class Bench implements AutoCloseable {

    static final String TITLE = "VESTIBULE";

    private static final Duration SETTLE = Duration.ofSeconds(2);
    private static final Duration PROMISE = Duration.ofSeconds(30);
    private static final Duration BETWEEN_ROUNDS = Duration.ofMinutes(7);

    private final Keeping keeping;
    private final BenchClock clock;
    private final Originals originals;
    private final SourceReader reader;
    private final DecidingDesk desk;
    private final Shipping shipping;
    private final CommitmentDesk reports;
    private final Delivering delivering;
    private Optional<AssociationListener> listener = Optional.empty();

    /**
     * Where a bench stands.
     *
     * @param home our data; may be on a disk with faults
     * @param card what is taken in; may be on a disk with faults
     * @param archive where to, directly or over a link with faults
     * @param deadlines of every wait on the network
     * @param settings TOML
     */
    record Site(Path home, Path card, InetSocketAddress archive, Deadlines deadlines, String settings) {

        static Site of(Path home, Path card, InetSocketAddress archive) {
            return new Site(home, card, archive, Deadlines.all(Duration.ofSeconds(10)), "");
        }

        Site withHome(Path other) {
            return new Site(other, card, archive, deadlines, settings);
        }

        Site withSettings(String toml) {
            return new Site(home, card, archive, deadlines, toml);
        }

        Site withDeadlines(Duration each) {
            return new Site(home, card, archive, Deadlines.all(each), settings);
        }
    }

    private Bench(Site site, Keeping keeping, BenchClock clock, Settings settings) throws IOException {
        this.keeping = keeping;
        this.clock = clock;
        this.originals = keeping.originals();
        originals.clearArriving();
        Shipping.clearAll(keeping.objects());
        keeping.outbox().nodes().release(keeping.node());
        PlainUnderstanding plain = new PlainUnderstanding();
        Backoff backoff = new Backoff(new Random(1));
        String source = site.card().toString();
        this.reader = new SourceReader(
                site.card(),
                originals,
                new OutboxRegister(
                        keeping.outbox().arrivals(),
                        new CaptureMoments(originals, settings, clock),
                        source,
                        originals.place(),
                        keeping.owner()),
                new SourceReader.Manner(LeaveAlone.USUAL, SETTLE, picture -> Optional.empty(), Runnable::run),
                clock);
        this.desk = new DecidingDesk(keeping.outbox(), originals, plain, keeping.node(), clock, backoff);
        this.reports = new CommitmentDesk(keeping.outbox().commitments(), () -> {});
        this.shipping = new Shipping(
                keeping.outbox(),
                originals,
                plain,
                new Shipping.Manner(
                        keeping.node(),
                        keeping.objects(),
                        settings.running().archive(),
                        settings.study().rejection(),
                        clock,
                        backoff,
                        true,
                        new Random(System.identityHashCode(this))),
                new OnThisThread());
        Destination archive = new Destination("127.0.0.1", site.archive().getPort(), "ARCHIVE", Optional.empty());
        ArchiveSession.Line line = new ArchiveSession.Line(archive, TITLE, site.deadlines());
        Optional<ReadingBack> readingBack = settings.running().archive().proof()
                        == vestibule.bridge.settings.Archive.Proof.READ_BACK
                ? Optional.of(new ReadingBack(
                        keeping.outbox(),
                        originals,
                        plain,
                        new TakingBack(
                                keeping.outbox().withdrawals(), settings.study().rejection()),
                        new ReadBack(line),
                        keeping.objects()))
                : Optional.empty();
        Drain drain = new Drain(line, shipping, reports);
        this.delivering = new Delivering(keeping.outbox(), originals, drain, readingBack, clock, backoff);
    }

    /** Starts as the service does, over whatever an earlier one left. */
    static Bench open(Site site, BenchClock clock) throws IOException {
        Settings settings = settings(site.settings());
        Keeping keeping;
        try {
            keeping = Keeping.open(site.home(), settings, clock);
        } catch (Failure e) {
            throw new IOException(e);
        }
        try {
            return new Bench(site, keeping, clock, settings);
        } catch (IOException | RuntimeException e) {
            keeping.close();
            throw e;
        }
    }

    private static Settings settings(String toml) throws IOException {
        Path file = Files.createTempFile("vestibule-", ".toml");
        try {
            boolean saysHome = toml.contains("[home]");
            return Settings.read(Files.writeString(file, saysHome ? toml : "[home]\nreserve = \"1 MB\"\n" + toml));
        } catch (SettingsException e) {
            throw new IOException(e);
        } finally {
            Files.delete(file);
        }
    }

    Keeping keeping() {
        return keeping;
    }

    SourceReader reader() {
        return reader;
    }

    /** Takes commitment reports on associations of the archive; where. */
    ApplicationEntity listen() throws IOException {
        ServiceProvider services = new ServiceProvider(List.of(new CommitmentReceiver(reports)));
        AssociationListener open = services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                AcceptorSettings.of(new AeTitle(TITLE), services.contexts()));
        listener = Optional.of(open);
        return new ApplicationEntity(
                new AeTitle(TITLE), "127.0.0.1", open.address().getPort());
    }

    /** Looks twice, so that what lay there at the first look is taken in at the second. */
    void takeIn() throws IOException {
        reader.look();
        clock.pass(SETTLE);
        reader.look();
    }

    void decide() throws IOException {
        desk.step(source -> true);
    }

    /** One pass of delivery. */
    void deliver() throws IOException {
        delivering.step();
    }

    /** Every step once. */
    void round() throws IOException {
        keeping.outbox().nodes().alive(keeping.node(), PROMISE);
        takeIn();
        decide();
        deliver();
    }

    /** Rounds until nothing is left to do, with time between them; false if something is left after so many. */
    boolean untilIdle(int rounds) throws IOException {
        for (int i = 0; i < rounds; i++) {
            round();
            if (isIdle()) {
                return true;
            }
            clock.pass(BETWEEN_ROUNDS);
        }
        return false;
    }

    boolean isIdle() throws IOException {
        Map<PhotoState, Integer> counts = keeping.outbox().overview().counts();
        return !counts.isEmpty() && !counts.containsKey(PhotoState.WAITING) && !counts.containsKey(PhotoState.SENT);
    }

    Map<PhotoState, Integer> counts() throws IOException {
        return keeping.outbox().overview().counts();
    }

    /** What the bridge says of itself. */
    Oracle.Account account() throws IOException {
        return account(keeping);
    }

    static Oracle.Account account(Keeping keeping) throws IOException {
        return account(keeping, List.of(keeping.folder()), keeping.folder().resolve("originals"));
    }

    /** The same where several homes share an outbox and a folder of originals. */
    static Oracle.Account account(Keeping keeping, List<Path> homes, Path originals) throws IOException {
        Overview overview = keeping.outbox().overview();
        Map<String, String> states = new HashMap<>();
        for (Overview.Photograph photo : all(overview)) {
            states.put(photo.photo(), photo.state().word());
        }
        int total = 0;
        for (Map.Entry<PhotoState, Integer> entry : overview.counts().entrySet()) {
            total += entry.getKey() == PhotoState.SET_ASIDE ? 0 : entry.getValue();
        }
        List<String> leftovers = new ArrayList<>();
        for (Path home : homes) {
            leftovers.addAll(leftovers(home, home, states));
        }
        if (homes.stream().noneMatch(originals::startsWith)) {
            leftovers.addAll(leftovers(originals.toAbsolutePath().getParent(), originals, states));
        }
        return new Oracle.Account(states, total, leftovers);
    }

    private static List<Overview.Photograph> all(Overview overview) throws IOException {
        List<Overview.Photograph> all = new ArrayList<>();
        all.addAll(overview.in(PhotoState.WAITING, PhotoState.NEEDS_ATTENTION));
        all.addAll(overview.in(PhotoState.SENT, PhotoState.COMMITTED));
        all.addAll(overview.in(PhotoState.REJECTED, PhotoState.REJECTED));
        return all;
    }

    /** Files in a home that are neither ours by name nor an original with the bytes that its name says. */
    private static List<String> leftovers(Path home, Path folder, Map<String, String> states) throws IOException {
        List<String> leftovers = new ArrayList<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.filter(Files::isRegularFile).toList()) {
                String name = home.relativize(path).toString();
                boolean ours = name.matches("outbox\\.db(-wal|-shm)?|node|[a-z]+\\.lock|originals/place");
                if (!ours && !isOriginal(path, name, states)) {
                    leftovers.add(name);
                }
            }
        }
        return leftovers;
    }

    private static boolean isOriginal(Path path, String name, Map<String, String> states) throws IOException {
        if (!name.matches("originals/[0-9a-f]{2}/[0-9a-f]{64}\\.jpg")) {
            return false;
        }
        String hash = name.substring(name.length() - 68, name.length() - 4);
        return states.containsKey(hash)
                && ScanHash.sha256(Files.readAllBytes(path)).equals(hash);
    }

    /** Ends as a service does that is asked to. */
    @Override
    public void close() throws IOException {
        listener.ifPresent(AssociationListener::close);
        try {
            shipping.close();
        } finally {
            keeping.close();
        }
    }

    /** Ends as a service does that was killed: nothing is given back. */
    void die() {
        listener.ifPresent(AssociationListener::close);
        keeping.close();
    }

    /** Makes objects on the thread that asks for them, so that steps have one order. */
    private static final class OnThisThread extends AbstractExecutorService {
        private boolean ended;

        @Override
        public void execute(Runnable task) {
            task.run();
        }

        @Override
        public void shutdown() {
            ended = true;
        }

        @Override
        public List<Runnable> shutdownNow() {
            ended = true;
            return List.of();
        }

        @Override
        public boolean isShutdown() {
            return ended;
        }

        @Override
        public boolean isTerminated() {
            return ended;
        }

        @Override
        public boolean awaitTermination(long timeout, TimeUnit unit) {
            return ended;
        }
    }
}
