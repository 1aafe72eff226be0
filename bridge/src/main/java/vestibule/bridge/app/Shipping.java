package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.ArchiveSession;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.delivery.Consignor;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Commitments;
import vestibule.bridge.outbox.Consignments;
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.ObjectState;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.settings.Archive;
import vestibule.bridge.settings.Study;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.SopReference;

/**
 * Hands the photographs of the outbox to a drain, each made into its objects a little ahead of being sent, and records what becomes of
 * them. Used by one thread.
 */
final class Shipping implements Consignor, AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Shipping.class);
    private static final String BY_HAND =
            "It has a rejection note to send: if that is what the archive does not take, take back there by hand what was filed wrongly, say settle --taken-back, and set study.rejection to \"person\".";
    private static final int AHEAD = 4;
    private static final int WITHOUT_MEMORY = 3;
    private static final int LARGEST_REQUEST = 100;
    private static final Duration WITHOUT_COMMITMENT = Duration.ofMinutes(5);

    /** A report that can come only on the association of the request is lost with it, as when this program dies. */
    private static final Duration WITHOUT_LISTENER = Duration.ofMinutes(2);

    private final Outbox outbox;
    private final Originals originals;
    private final Making making;
    private final Manner manner;
    private final TakingBack takingBack;
    private final ExecutorService makers;
    private final Deque<Coming> coming = new ArrayDeque<>();

    private volatile @Nullable String answer;
    private volatile Instant answeredAt = Instant.MIN;
    private volatile Instant lastStored = Instant.MIN;

    private record Coming(Consignment consignment, Future<Optional<Parcel>> parcel) {}

    /**
     * What the shipping goes by.
     *
     * @param node who claims
     * @param objects the folder where objects lie until they are sent
     * @param archive how commitment is asked for
     * @param rejection how the archive is told what was filed wrongly
     * @param listening whether reports can come on associations that the archive opens
     * @param random for identifiers of transactions
     */
    record Manner(
            String node,
            Path objects,
            Archive archive,
            Study.Rejection rejection,
            Clock clock,
            Backoff backoff,
            boolean listening,
            RandomGenerator random) {}

    Shipping(Outbox outbox, Originals originals, Making making, Manner manner, ExecutorService makers) {
        this.outbox = outbox;
        this.originals = originals;
        this.making = making;
        this.manner = manner;
        this.makers = makers;
        this.takingBack = new TakingBack(outbox.withdrawals(), manner.rejection());
    }

    private Consignments consignments() {
        return outbox.consignments();
    }

    @Override
    public Optional<Parcel> next() throws IOException {
        while (true) {
            if (coming.size() < AHEAD) {
                for (Consignment each : consignments().claim(manner.node(), originals.place(), AHEAD - coming.size())) {
                    coming.add(new Coming(each, makers.submit(() -> prepare(each))));
                }
            }
            Coming first = coming.poll();
            if (first == null) {
                return Optional.empty();
            }
            Optional<Parcel> parcel = await(first);
            if (parcel.isPresent()) {
                return parcel;
            }
            release(first.consignment());
        }
    }

    private Optional<Parcel> await(Coming one) throws IOException {
        try {
            return one.parcel().get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            release(one.consignment());
            return Optional.empty();
        } catch (ExecutionException e) {
            release(one.consignment());
            return notMade(one.consignment(), e.getCause());
        }
    }

    private Optional<Parcel> notMade(Consignment consignment, @Nullable Throwable cause) throws IOException {
        if (cause instanceof IOException failure) {
            giveBack(failure);
            throw failure;
        }
        if (cause instanceof OutOfMemoryError && putOffForMemory(consignment)) {
            return Optional.empty();
        }
        LOG.error("{}: no object could be made by a fault of ours", consignment.photo(), cause);
        consignments()
                .attention(
                        consignment.photo(),
                        "fault",
                        "A fault of this program kept the object from being made; please report it, then retry.");
        LOG.debug("{}", String.valueOf(cause));
        return Optional.empty();
    }

    /** What was begun beside a failure of ours is begun anew with the next attempt, when the disk may be there again. */
    private void giveBack(IOException failure) {
        while (!coming.isEmpty()) {
            Coming one = coming.remove();
            try {
                await(one);
                release(one.consignment());
            } catch (IOException e) {
                failure.addSuppressed(e);
            }
        }
    }

    /** Memory may be there later; a photograph for which there never is any does not hold up the others. */
    private boolean putOffForMemory(Consignment consignment) throws IOException {
        int attempts = consignments().attempts(consignment.photo()) + 1;
        if (attempts > WITHOUT_MEMORY) {
            return false;
        }
        consignments()
                .putOff(
                        consignment.photo(),
                        manner.clock().instant().plus(manner.backoff().after(attempts)),
                        "memory was short while its object was made; it is made again");
        return true;
    }

    /** Whether our copy is not there, or not whole; where its folder is away for a while, as one on a share may be, nothing is lost. */
    private boolean isLost(String photo) throws IOException {
        if (originals.holdsWhole(photo)) {
            return false;
        }
        originals.requireThere();
        return !originals.holdsWhole(photo);
    }

    /** Makes the objects of a photograph; empty if nothing is to be sent of it now. */
    private Optional<Parcel> prepare(Consignment consignment) throws IOException {
        Path original = originals.path(consignment.photo());
        if (isLost(consignment.photo())) {
            consignments()
                    .attention(
                            consignment.photo(),
                            "original-damaged",
                            "Our copy of the original is gone or no longer what it was; take the photograph in again, then retry.");
            return Optional.empty();
        }
        Path folder = folder(consignment.photo(), consignment.revision());
        clear(folder);
        Files.createDirectories(folder);
        try {
            return parcel(
                    consignment,
                    making.make(original, consignment.decision(), folder),
                    takingBack.notes(consignment.photo(), folder));
        } catch (Failure e) {
            consignments().attention(consignment.photo(), "cannot-be-made", String.valueOf(e.getMessage()));
            return Optional.empty();
        }
    }

    /** A photograph's objects go before the notes that take others back, so that the archive is never without it. */
    private Optional<Parcel> parcel(Consignment consignment, List<Making.Made> files, List<TakingBack.Note> notes)
            throws IOException {
        Map<String, DicomFile> read = new HashMap<>();
        List<Consignments.Made> made = new ArrayList<>();
        for (Making.Made each : files) {
            made.add(Described.of(each, List.of(), read));
        }
        for (TakingBack.Note note : notes) {
            made.add(Described.of(note.made(), note.takesBack(), read));
        }
        List<Consignments.Item> items = consignments().made(consignment, made);
        if (items.isEmpty()) {
            consignments()
                    .attention(
                            consignment.photo(),
                            "object-differs",
                            "Sending it was begun, and made again its object is not the same: a setting, or this program, has changed since. Nothing else is sent under its identifier; put that back and retry, or report it.");
            return Optional.empty();
        }
        List<Item> toSend = new ArrayList<>();
        for (Consignments.Item item : items) {
            ObjectState state = item.state();
            DicomFile file = read.get(item.sopInstance());
            boolean due = state == ObjectState.SENDING || (state == ObjectState.MADE && !isHeldBack(item, items));
            if (file != null && due) {
                toSend.add(new Item(item.sopInstance(), file, state == ObjectState.SENDING, item.resend()));
            }
        }
        return toSend.isEmpty()
                ? Optional.empty()
                : Optional.of(new Parcel(consignment.photo(), consignment.revision(), toSend));
    }

    /** What the archive refused for good takes the rest of its photograph with it: a corrected picture says nothing without its source. */
    private static boolean isHeldBack(Consignments.Item item, List<Consignments.Item> items) {
        return !item.isNote()
                && items.stream().anyMatch(other -> !other.isNote() && other.state() == ObjectState.REJECTED);
    }

    private Path folder(String photo, int revision) {
        return manner.objects().resolve(photo + "-" + revision);
    }

    /** Deletes all that lies ready for sending, such as a process left that died; it can be made again. */
    static void clearAll(Path objects) throws IOException {
        Files.createDirectories(objects);
        try (DirectoryStream<Path> folders = Files.newDirectoryStream(objects)) {
            for (Path folder : folders) {
                clear(folder);
            }
        }
    }

    static void clear(Path folder) throws IOException {
        if (Files.isDirectory(folder)) {
            try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
                for (Path file : files) {
                    if (Files.isDirectory(file)) {
                        clear(file);
                    } else {
                        Files.delete(file);
                    }
                }
            }
            Files.delete(folder);
        }
    }

    private void release(Consignment consignment) throws IOException {
        clear(folder(consignment.photo(), consignment.revision()));
        consignments().release(consignment.photo(), manner.node());
    }

    @Override
    public void done(Parcel parcel) throws IOException {
        clear(folder(parcel.photo(), parcel.revision()));
        consignments().release(parcel.photo(), manner.node());
    }

    @Override
    public boolean sending(Parcel parcel, Item item) throws IOException {
        return consignments().sending(parcel.photo(), parcel.revision(), item.sopInstance(), manner.node());
    }

    @Override
    public void stored(Parcel parcel, Item item, int status, String comment) throws IOException {
        answer = null;
        lastStored = manner.clock().instant();
        consignments().stored(parcel.photo(), item.sopInstance(), status, comment);
    }

    @Override
    public void refused(Parcel parcel, Item item, int status, String comment, boolean retry) throws IOException {
        consignments().refused(parcel.photo(), item.sopInstance(), status, comment, retry);
        if (retry) {
            later(status);
        }
        if (!retry) {
            consignments()
                    .note(
                            parcel.photo(),
                            "the archive refused %s for good with status %04X%s"
                                    .formatted(
                                            isNote(item) ? "the note that takes back what was filed wrongly" : "it",
                                            status,
                                            comment.isEmpty() ? "" : ", " + comment));
        }
    }

    @Override
    public void found(Parcel parcel, Item item) throws IOException {
        consignments().found(parcel.photo(), item.sopInstance());
    }

    @Override
    public void absent(Parcel parcel, Item item, String cause) throws IOException {
        consignments().absent(parcel.photo(), item.sopInstance(), cause);
    }

    @Override
    public void putOff(Parcel parcel, String cause) throws IOException {
        int attempts = consignments().attempts(parcel.photo()) + 1;
        consignments()
                .putOff(
                        parcel.photo(),
                        manner.clock().instant().plus(manner.backoff().after(attempts)),
                        cause);
    }

    @Override
    public void attention(Parcel parcel, String reason, String message) throws IOException {
        boolean noteIsLeft = parcel.items().stream().anyMatch(Shipping::isNote) && reason.equals("not-accepted");
        consignments().attention(parcel.photo(), reason, noteIsLeft ? message + " " + BY_HAND : message);
    }

    /** Said once for each answer, since an archive that has no room refuses everything; its comment may name a patient and is left out. */
    private void later(int status) {
        String now =
                "the archive answers %04X; what it refused so is sent again, less and less often".formatted(status);
        if (!now.equals(answer)) {
            LOG.warn("{}", now);
        }
        answer = now;
        answeredAt = manner.clock().instant();
    }

    /**
     * What the archive answered last instead of success, where that is to be tried again; it names no patient of ours.
     *
     * @param storedSince when the archive stored something last, on any association
     */
    Optional<String> answer(Instant storedSince) {
        return Optional.ofNullable(answer)
                .filter(words -> !storedSince.isAfter(answeredAt))
                .filter(words -> anyLeft());
    }

    private boolean anyLeft() {
        try {
            return consignments().isAnyLeft(originals.place());
        } catch (IOException e) {
            LOG.debug("whether anything is left to be sent cannot be told: {}", e.getMessage());
            return true;
        }
    }

    /** When the archive stored something last. */
    Instant lastStored() {
        return lastStored;
    }

    private static boolean isNote(Item item) {
        return item.file()
                .sopClass()
                .filter(Uids.KEY_OBJECT_SELECTION_DOCUMENT_STORAGE::equals)
                .isPresent();
    }

    @Override
    public void note(Parcel parcel, String sentence) throws IOException {
        consignments().note(parcel.photo(), sentence);
    }

    @Override
    public boolean byCommitment() {
        return manner.archive().proof() == Archive.Proof.COMMITMENT;
    }

    @Override
    public Optional<CommitmentRequest> toCommit(String archive) throws IOException {
        Uid transaction = Uid.random(manner.random());
        List<Commitments.Reference> objects = outbox.commitments()
                .open(
                        transaction.value(),
                        archive,
                        LARGEST_REQUEST,
                        manner.clock().instant().plus(patience()));
        return objects.isEmpty()
                ? Optional.empty()
                : Optional.of(new CommitmentRequest(
                        transaction,
                        objects.stream()
                                .map(object -> new SopReference(
                                        ArchiveSession.uid(object.sopClass()),
                                        ArchiveSession.uid(object.sopInstance())))
                                .toList()));
    }

    private Duration patience() {
        Duration deadline = manner.archive().deadline();
        return manner.listening() || deadline.compareTo(WITHOUT_LISTENER) < 0 ? deadline : WITHOUT_LISTENER;
    }

    @Override
    public void asked(CommitmentRequest request, OperationOutcome outcome) throws IOException {
        String transaction = request.transaction().value();
        if (outcome instanceof OperationOutcome.Refused refused) {
            outbox.commitments().notTaken(transaction, "the archive refused to be asked: " + refused.status());
        } else if (outcome instanceof OperationOutcome.NotSent notSent) {
            outbox.commitments().notTaken(transaction, "it was not asked: " + notSent.reason());
        }
        LOG.info(
                "commitment of {} asked for: {}",
                Counted.of(request.objects().size(), "object"),
                outcome.getClass().getSimpleName());
    }

    /** Without a listener of ours no report can come any more, and waiting for the deadline would help nobody. */
    @Override
    public void unreported(List<Uid> transactions) throws IOException {
        if (!manner.listening()) {
            for (Uid transaction : transactions) {
                outbox.commitments().unreported(transaction.value());
            }
        }
    }

    @Override
    public void notCommitting(List<Parcel> parcels, String sentence) throws IOException {
        LOG.warn("not committed yet: {}", sentence);
        for (Parcel parcel : parcels) {
            outbox.commitments().notCommitted(parcel.photo(), sentence);
        }
        outbox.commitments().putOff(manner.clock().instant().plus(WITHOUT_COMMITMENT));
    }

    /** Gives back what was claimed and not handed over. */
    @Override
    public void close() throws IOException {
        while (!coming.isEmpty()) {
            Coming one = coming.remove();
            await(one);
            release(one.consignment());
        }
    }
}
