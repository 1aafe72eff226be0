package vestibule.validator;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.validator.rules.BatchCheck;
import vestibule.validator.rules.BatchEntry;

/**
 * Objects judged one after the other and compared with one another. They are read by as many threads as there are processors; they are
 * compared and reported in the order in which they were taken, whichever was read first. Used by one thread.
 */
public final class Batch implements AutoCloseable {

    private static final int MOST_THREADS = 8;
    private static final int WAITING_FOR_EACH = 4;

    /** What was found in one object before it is compared with the others. */
    private record Judged(Named named, Optional<Found> found, String reason, Optional<Path> temporary) {}

    private record Found(Findings findings, BatchEntry entry, Optional<String> thumbnail) {}

    private final Validator validator;
    private final ObjectReader reader;
    private final BatchCheck comparing;
    private final int threads = Math.min(MOST_THREADS, Runtime.getRuntime().availableProcessors());
    private final ExecutorService readers;
    private final Deque<Future<Judged>> waiting = new ArrayDeque<>();
    private final Map<Waiver, Integer> uses = new LinkedHashMap<>();
    private Summary summary = Summary.NONE;

    Batch(Validator validator, ObjectReader reader) {
        this.validator = validator;
        this.reader = reader;
        this.comparing = new BatchCheck(validator.settings().sets());
        this.readers = Executors.newFixedThreadPool(threads, task -> {
            Thread thread = new Thread(task, "vestibule-validator");
            thread.setDaemon(true);
            return thread;
        });
        validator.settings().waivers().forEach(waiver -> uses.put(waiver, 0));
    }

    /**
     * Takes a file that came over the network, and deletes it when it has been judged.
     *
     * @param file the file
     * @param name what reports call it
     * @throws IOException if the reader cannot take a report
     */
    public void takeTemporary(Path file, String name) throws IOException {
        take(file, Named.only(name), true);
    }

    /** Says that an object could not be had. */
    public void unreadable(String name, String reason) throws IOException {
        unreadable(Named.only(name), reason);
    }

    void take(Path file, Named named, boolean temporary) throws IOException {
        submit(() -> judge(file, named, temporary));
    }

    void unreadable(Named named, String reason) throws IOException {
        add(CompletableFuture.completedFuture(new Judged(named, Optional.empty(), reason, Optional.empty())));
    }

    private void submit(Callable<Judged> task) throws IOException {
        add(readers.submit(task));
    }

    private void add(Future<Judged> judged) throws IOException {
        waiting.add(judged);
        while (waiting.size() > threads * WAITING_FOR_EACH
                || (!waiting.isEmpty() && waiting.peek().isDone())) {
            finishFirst();
        }
    }

    private Judged judge(Path file, Named named, boolean temporary) {
        Optional<Path> toDelete = temporary ? Optional.of(file) : Optional.empty();
        try {
            Subject subject = validator.subject(DicomFile.read(file));
            Findings findings = validator.find(subject);
            Found found = new Found(findings, BatchEntry.of(named.name(), subject), validator.thumbnail(subject));
            return new Judged(named, Optional.of(found), "", toDelete);
        } catch (IOException e) {
            return new Judged(named, Optional.empty(), reason(file, e), toDelete);
        }
    }

    static String reason(Path file, IOException e) {
        Optional<String> other = e instanceof DicomFormatException ? OtherFile.what(file) : Optional.empty();
        if (other.isPresent()) {
            return "not a readable DICOM object: " + other.get();
        }
        String message = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
        if (e instanceof DicomFormatException) {
            return "not a readable DICOM object: " + message;
        }
        return e instanceof AccessDeniedException
                ? "the file cannot be opened; check who may read it"
                : "the file cannot be read to its end: " + message;
    }

    private void finishFirst() throws IOException {
        try {
            finish(waiting.remove().get());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("the batch was interrupted", e);
        } catch (ExecutionException e) {
            throw new IllegalStateException("a check failed", e.getCause());
        }
    }

    private void finish(Judged judged) throws IOException {
        ObjectReport report;
        if (judged.found().isPresent()) {
            Found found = judged.found().get();
            comparing.compare(found.entry(), found.findings());
            report = ObjectReport.of(judged.named(), found.findings(), validator.settings(), validator.today())
                    .showing(found.thumbnail());
        } else {
            report = ObjectReport.unreadable(judged.named(), judged.reason());
        }
        if (judged.temporary().isPresent()) {
            Files.deleteIfExists(judged.temporary().get());
        }
        report.waived().forEach(waived -> uses.merge(waived.waiver(), 1, Integer::sum));
        summary = summary.with(report.verdict());
        reader.accept(report);
    }

    /**
     * Ends the batch.
     *
     * @throws IOException if the reader cannot take a report
     */
    public BatchReport end() throws IOException {
        while (!waiting.isEmpty()) {
            finishFirst();
        }
        Findings findings = new Findings(validator.settings(), Integer.MAX_VALUE);
        comparing.end(findings);
        ObjectReport whole = ObjectReport.of(Named.only("batch"), findings, validator.settings(), validator.today());
        whole.waived().forEach(waived -> uses.merge(waived.waiver(), 1, Integer::sum));
        return new BatchReport(summary, whole.findings(), uses);
    }

    @Override
    public void close() {
        readers.shutdownNow();
    }
}
