package vestibule.conformance.fault;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import vestibule.conformance.fault.DiskOperation.Kind;

/**
 * A real folder seen through a file system that counts what changes it, and fails, fills up or loses power where it is told. Programs use
 * it through {@link #root}, as they use any {@link Path}.
 *
 * <p>A power cut does not stop the program: it lays out beside the folder what the cut would have left, and a second program is started
 * over that. So one run, watched at each operation, stands for as many cuts as it has operations.
 */
public final class FaultDisk {

    /** What the machine says when a disk fails. */
    public enum Failure {
        /** The disk is broken. */
        INPUT_OUTPUT_ERROR("Input/output error"),
        /** The disk is full. */
        NO_SPACE("No space left on device");

        private final String words;

        Failure(String words) {
            this.words = words;
        }
    }

    /** Hears of each operation before it is done. */
    @FunctionalInterface
    public interface Watcher {
        /** May lay out a cut, or throw to fail the operation. */
        void before(DiskOperation operation) throws IOException;
    }

    private record Fault(Predicate<DiskOperation> where, Failure how, boolean forEver) {}

    private final Path real;
    private final DiskModel model;
    private final FaultFileSystem fileSystem;
    private final List<DiskOperation> log = new ArrayList<>();
    private final List<Fault> faults = new ArrayList<>();
    private final AtomicLong readable = new AtomicLong(Long.MAX_VALUE);
    private @Nullable Failure broken;
    private volatile OptionalLong usable = OptionalLong.empty();
    private volatile CountDownLatch silence = new CountDownLatch(0);
    private volatile Watcher watcher = operation -> {};

    private FaultDisk(Path real) throws IOException {
        this.real = real;
        this.model = new DiskModel(real);
        this.fileSystem = new FaultFileSystem(this);
    }

    /** A disk over a folder, which is made if it is not there; what is in it is taken to be safe. */
    public static FaultDisk over(Path folder) throws IOException {
        Files.createDirectories(folder);
        return new FaultDisk(folder.toRealPath());
    }

    /** The folder as programs are to see it. */
    public Path root() {
        return fileSystem.wrap(real);
    }

    /** The folder itself. */
    public Path folder() {
        return real;
    }

    /** What has changed the disk so far, in order. */
    public synchronized List<DiskOperation> log() {
        return List.copyOf(log);
    }

    /** Whom to tell before each operation. */
    public void watch(Watcher next) {
        watcher = next;
    }

    /** Fails the operation of that number, counted from 0, and if {@code forEver} all that come after it. */
    public void failAt(int number, Failure how, boolean forEver) {
        failWhere(operation -> operation.number() >= number, how, forEver);
    }

    /** Fails the first operation that fits, and if {@code forEver} all that come after it. */
    public synchronized void failWhere(Predicate<DiskOperation> where, Failure how, boolean forEver) {
        faults.add(new Fault(where, how, forEver));
    }

    /** The disk works again. */
    public synchronized void repair() {
        faults.clear();
        broken = null;
        readable.set(Long.MAX_VALUE);
        usable = OptionalLong.empty();
    }

    /** What the disk says it has left, in bytes; writes beyond it fail. */
    public void usableSpace(long bytes) {
        usable = OptionalLong.of(bytes);
    }

    /** Everything fails once so many bytes have been read from now on, as when a card is pulled out. */
    public void pullAfterReading(long bytes) {
        silence = new CountDownLatch(0);
        readable.set(bytes);
    }

    /** Nothing is answered any more once so many bytes have been read from now on, as by a share whose server is gone, until {@link #answer}. */
    public void hangAfterReading(long bytes) {
        silence = new CountDownLatch(1);
        readable.set(bytes);
    }

    /** Whoever waits is answered, and all others again. */
    public void answer() {
        readable.set(Long.MAX_VALUE);
        silence.countDown();
    }

    /** Lays out in an empty folder what a power cut at this moment would leave. */
    public void layOut(Path target, Cut cut, @Nullable DiskOperation under) throws IOException {
        model.layOut(target, cut, under);
    }

    OptionalLong usable() {
        return usable;
    }

    DiskModel model() {
        return model;
    }

    FaultFileSystem fileSystem() {
        return fileSystem;
    }

    /** Before something changes the disk. */
    void before(Kind kind, Path path, DiskOperation.@Nullable Written data) throws IOException {
        stillThere(path);
        DiskOperation operation = record(kind, path, data);
        watcher.before(operation);
        failIfTold(operation);
        takeSpace(operation);
    }

    private synchronized DiskOperation record(Kind kind, Path path, DiskOperation.@Nullable Written data) {
        DiskOperation operation = DiskOperation.of(log.size(), kind, real.relativize(path), data);
        // What is remembered for the list may not hold on to every byte that was written
        log.add(new DiskOperation(operation.number(), kind, operation.path(), Optional.empty()));
        return operation;
    }

    private synchronized void failIfTold(DiskOperation operation) throws IOException {
        if (broken != null) {
            throw error(broken, operation.path());
        }
        Optional<Fault> due =
                faults.stream().filter(fault -> fault.where.test(operation)).findFirst();
        if (due.isPresent()) {
            faults.remove(due.get());
            broken = due.get().forEver ? due.get().how : null;
            throw error(due.get().how, operation.path());
        }
    }

    private void takeSpace(DiskOperation operation) throws IOException {
        if (usable.isEmpty()) {
            return;
        }
        long needed =
                operation.data().map(data -> (long) data.bytes().remaining()).orElse(0L);
        boolean needsSome = operation.kind() == Kind.CREATE || operation.kind() == Kind.CREATE_FOLDER;
        if (needed > usable.getAsLong() || (needsSome && usable.getAsLong() == 0)) {
            throw error(Failure.NO_SPACE, operation.path());
        }
        usable = OptionalLong.of(usable.getAsLong() - needed);
    }

    private IOException error(Failure how, Path path) {
        return new FileSystemException(real.resolve(path).toString(), null, how.words);
    }

    /** Before something is read, and before anything at all: a card that was pulled out answers nothing. */
    void stillThere(Path path) throws IOException {
        if (readable.get() > 0) {
            return;
        }
        CountDownLatch waiting = silence;
        if (waiting.getCount() == 0) {
            throw new FileSystemException(path.toString(), null, Failure.INPUT_OUTPUT_ERROR.words);
        }
        try {
            waiting.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("interrupted while the disk did not answer");
        }
    }

    void hasRead(long bytes) {
        if (readable.get() != Long.MAX_VALUE) {
            readable.addAndGet(-Math.max(0, bytes));
        }
    }
}
