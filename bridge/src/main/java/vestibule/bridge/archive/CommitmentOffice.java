package vestibule.bridge.archive;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.Durability;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.CommitmentProvider;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.CommitmentReporter;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.RefusedException;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.Status;

/**
 * The embedded archive's storage commitment (PS3.4 J): it answers for what lies on its disk. A caller whose address is known gets its
 * report on an association of the archive's own, written down before the request is answered and delivered until it is taken; any other
 * gets it on the association it asked on.
 */
final class CommitmentOffice implements CommitmentProvider.Handler, AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(CommitmentOffice.class);
    private static final Duration AGAIN = Duration.ofSeconds(2);
    private static final String ENDING = ".report";

    private final ArchiveFolder objects;
    private final Path pending;
    private final Map<AeTitle, ApplicationEntity> known;
    private final CommitmentReporter reporter;
    private final ScheduledExecutorService thread;

    private CommitmentOffice(
            ArchiveFolder objects, Path pending, Map<AeTitle, ApplicationEntity> known, CommitmentReporter reporter) {
        this.objects = objects;
        this.pending = pending;
        this.known = Map.copyOf(known);
        this.reporter = reporter;
        this.thread = Executors.newSingleThreadScheduledExecutor(task -> {
            Thread thread = new Thread(task, "commitment-reports");
            thread.setDaemon(true);
            return thread;
        });
    }

    /**
     * Opens the office and delivers what was left from before.
     *
     * @param known whom to report to on associations of our own, and where
     */
    static CommitmentOffice open(ArchiveFolder objects, AeTitle own, Map<AeTitle, ApplicationEntity> known)
            throws IOException {
        Path pending = Files.createDirectories(objects.folder().resolve("commitments"));
        CommitmentOffice office =
                new CommitmentOffice(objects, pending, known, new CommitmentReporter(own, Deadlines.DEFAULT));
        try (DirectoryStream<Path> left = Files.newDirectoryStream(pending, "*" + ENDING)) {
            for (Path file : left) {
                office.thread.execute(() -> office.deliver(file));
            }
        }
        return office;
    }

    @Override
    public Optional<CommitmentReport> request(CommitmentRequest request, AeTitle calling) throws RefusedException {
        if (!known.containsKey(calling)) {
            return Optional.of(report(request));
        }
        try {
            Path file = write(request, calling);
            thread.execute(() -> deliver(file));
            return Optional.empty();
        } catch (IOException e) {
            LOG.error("a commitment request could not be written down: {}", e.getMessage());
            throw new RefusedException(Status.PROCESSING_FAILURE, "the request could not be written down");
        }
    }

    private CommitmentReport report(CommitmentRequest request) {
        List<SopReference> committed = new ArrayList<>();
        List<CommitmentReport.Failure> failed = new ArrayList<>();
        for (SopReference object : request.objects()) {
            Optional<Uid> kept = objects.sopClass(object.sopInstance());
            if (kept.equals(Optional.of(object.sopClass()))) {
                committed.add(object);
            } else {
                failed.add(new CommitmentReport.Failure(
                        object, kept.isEmpty() ? Status.NO_SUCH_SOP_INSTANCE : Status.CLASS_INSTANCE_CONFLICT));
            }
        }
        return new CommitmentReport(request.transaction(), committed, failed);
    }

    /** One line for the caller, then one for each object. */
    private Path write(CommitmentRequest request, AeTitle calling) throws IOException {
        StringBuilder text = new StringBuilder(calling.value()).append('\n');
        request.objects()
                .forEach(object -> text.append(object.sopClass())
                        .append(' ')
                        .append(object.sopInstance())
                        .append('\n'));
        Path file = pending.resolve(request.transaction().value() + ENDING);
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            ByteBuffer bytes = ByteBuffer.wrap(text.toString().getBytes(StandardCharsets.US_ASCII));
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(true);
        }
        Durability.forceFolder(pending);
        return file;
    }

    private void deliver(Path file) {
        try {
            List<String> lines = Files.readAllLines(file, StandardCharsets.US_ASCII);
            ApplicationEntity to = known.get(new AeTitle(lines.get(0)));
            if (to == null) {
                LOG.warn("a commitment report stays undelivered, for nobody knows where {} is", lines.get(0));
                return;
            }
            OperationOutcome outcome = reporter.deliver(report(read(file, lines)), to);
            if (outcome instanceof OperationOutcome.Done || outcome instanceof OperationOutcome.Refused) {
                Files.delete(file);
                return;
            }
            LOG.info("a commitment report was not taken, it is delivered again: {}", outcome);
        } catch (IOException | RuntimeException e) {
            LOG.warn("a commitment report could not be delivered", e);
        }
        if (!thread.isShutdown()) {
            ScheduledFuture<?> next = thread.schedule(() -> deliver(file), AGAIN.toMillis(), TimeUnit.MILLISECONDS);
            LOG.debug("delivered again in {} ms", next.getDelay(TimeUnit.MILLISECONDS));
        }
    }

    private static CommitmentRequest read(Path file, List<String> lines) {
        String name = String.valueOf(file.getFileName());
        return new CommitmentRequest(
                new Uid(name.substring(0, name.length() - ENDING.length())),
                lines.stream()
                        .skip(1)
                        .map(line -> line.split(" ", 2))
                        .map(parts -> new SopReference(new Uid(parts[0]), new Uid(parts[1])))
                        .toList());
    }

    @Override
    public void close() {
        thread.shutdownNow();
    }
}
