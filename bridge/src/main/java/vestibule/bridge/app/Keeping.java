package vestibule.bridge.app;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.outbox.Database;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.settings.Home;
import vestibule.bridge.settings.Intake;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.io.Durability;

/**
 * A home that is open: the outbox, the originals, and who we are. Several processes may open one; what only one may do at a time it
 * {@linkplain #lock locks}. A lock ends with its process, however that ends, so that the next one takes over at once.
 */
final class Keeping implements AutoCloseable {

    private static final Path USUAL = Path.of("vestibule-home");
    private static final String SERVICE = "service.lock";
    private static final String INTAKE = "intake.lock";

    private final Path folder;
    private final String node;
    private final Outbox outbox;
    private final Settings settings;

    private Keeping(Path folder, String node, Outbox outbox, Settings settings) {
        this.folder = folder;
        this.node = node;
        this.outbox = outbox;
        this.settings = settings;
    }

    /** Where the home is: {@code --home}, else the settings, else a folder here. */
    static Path folder(Arguments arguments, Settings settings) throws Failure {
        return arguments
                .path("home")
                .or(() -> settings.running().home().folder())
                .orElse(USUAL);
    }

    /** Opens a home that is there already. */
    static Keeping openExisting(Path folder, Settings settings, Clock clock) throws Failure, IOException {
        if (!Files.isDirectory(folder)) {
            throw new Failure(
                    Exit.INPUT_OUTPUT,
                    "%s: there is no home here yet; vestibule intake makes one, --home names another."
                            .formatted(folder));
        }
        return open(folder, settings, clock);
    }

    /** Opens a home, and makes it if it is not there. */
    static Keeping open(Path folder, Settings settings, Clock clock) throws Failure, IOException {
        Durability.makeFolders(folder);
        Outbox outbox = Outbox.open(address(folder, settings.running().home()), clock);
        try {
            return new Keeping(folder, node(folder), outbox, settings);
        } catch (IOException e) {
            outbox.close();
            throw e;
        }
    }

    private static Database.Address address(Path folder, Home home) throws IOException {
        if (home.database().isEmpty()) {
            return Database.Address.file(folder.resolve("outbox.db"));
        }
        Optional<String> password = home.passwordFile().isPresent()
                ? Optional.of(Files.readString(home.passwordFile().get()).strip())
                : Optional.empty();
        return new Database.Address(home.database().get(), home.user(), password);
    }

    /** A name of our own among the nodes, made once for each home. */
    private static String node(Path folder) throws IOException {
        Path file = folder.resolve("node");
        if (!Files.exists(file)) {
            try (FileChannel channel = open(folder.resolve("node.lock"));
                    FileLock lock = channel.lock()) {
                if (lock.isValid() && !Files.exists(file)) {
                    writeNode(folder, file);
                }
            }
        }
        return Files.readString(file, StandardCharsets.UTF_8).strip();
    }

    /** Always by way of the same other name, so that a start that is cut short leaves nothing that the next one does not use. */
    private static void writeNode(Path folder, Path file) throws IOException {
        Path fresh = folder.resolve("node.part");
        try (FileChannel channel = open(fresh)) {
            channel.truncate(0);
            channel.write(StandardCharsets.UTF_8.encode(UUID.randomUUID().toString()));
            channel.force(true);
        }
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
        Durability.forceFolder(folder);
    }

    private static FileChannel open(Path file) throws IOException {
        return FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
    }

    Outbox outbox() {
        return outbox;
    }

    /** What was read in photographs, in the outbox. */
    Memory memory() {
        return new Memory() {
            @Override
            public Map<String, String> recall(Collection<String> photos) throws IOException {
                return outbox.readings().of(photos);
            }

            @Override
            public void keep(Map<String, String> readings) throws IOException {
                outbox.readings().keep(readings);
            }
        };
    }

    String node() {
        return node;
    }

    /** Whose the sources are that we look at: one home's need no name, and stay its own if it is laid elsewhere. */
    String owner() {
        return home().database().isPresent() ? node : "";
    }

    Path folder() {
        return folder;
    }

    /** Where objects lie from their making to their sending. */
    Path objects() {
        return folder.resolve("objects");
    }

    private Home home() {
        return settings.running().home();
    }

    private Path originalsFolder() {
        return home().originals().orElse(folder.resolve("originals"));
    }

    /** The originals, to look at. */
    Originals originals() throws IOException {
        return Originals.open(originalsFolder(), node, home().reserve());
    }

    /** Reads a card or folder into the originals, as settings want it. */
    SourceReader reader(Path source, Originals originals, Intake intake, Clock clock) throws IOException {
        return new SourceReader(
                source,
                originals,
                new OutboxRegister(
                        outbox.arrivals(),
                        new CaptureMoments(originals, settings, clock),
                        source.toString(),
                        originals.place(),
                        owner()),
                new SourceReader.Manner(LeaveAlone.USUAL.and(intake.leaveAlone()), intake.settle(), new CardGlance()),
                clock);
    }

    /** The originals as the command {@code intake} writes them, apart from the service; what an intake that died left is deleted. */
    Originals originalsForIntake() throws IOException {
        Originals originals = Originals.open(originalsFolder(), node + "-intake", home().reserve());
        originals.clearArriving();
        return originals;
    }

    /** Something that one process does at a time. */
    static final class Lock implements AutoCloseable {
        private final FileChannel channel;
        private final FileLock lock;

        private Lock(FileChannel channel, FileLock lock) {
            this.channel = channel;
            this.lock = lock;
        }

        boolean isHeld() {
            return lock.isValid();
        }

        @Override
        public void close() throws IOException {
            lock.close();
            channel.close();
        }
    }

    /** The right to be the service of this home; empty if another process has it. */
    Optional<Lock> lockService() throws IOException {
        return lock(SERVICE);
    }

    /** The right to take in by command; empty if another process has it. */
    Optional<Lock> lockIntake() throws IOException {
        return lock(INTAKE);
    }

    private Optional<Lock> lock(String name) throws IOException {
        FileChannel channel = FileChannel.open(
                folder.resolve(name), StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
        try {
            FileLock lock = channel.tryLock();
            if (lock != null) {
                return Optional.of(new Lock(channel, lock));
            }
        } catch (OverlappingFileLockException heldByUs) {
            channel.close();
            return Optional.empty();
        } catch (IOException e) {
            channel.close();
            throw e;
        }
        channel.close();
        return Optional.empty();
    }

    @Override
    public void close() {
        outbox.close();
    }
}
