package vestibule.bridge.probe;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.service.CommitmentListener;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.CommitmentUser;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.RefusedException;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

/**
 * Asks for commitment and waits for the report on the same association and, where we listen, on one that the archive opens. Without a test
 * object it asks for an object that does not exist: the report must come all the same, and must not promise to keep it.
 */
final class CommitmentSteps {

    private static final Duration LOOK = Duration.ofMillis(100);

    private final Link link;
    private final Steps steps;
    private final Wishes wishes;
    private final TestObject testObject;
    private final Uid transaction;
    private final LinkedBlockingQueue<CommitmentReport> delivered = new LinkedBlockingQueue<>();
    private final List<String> turnedAway = new CopyOnWriteArrayList<>();
    private SopReference object;
    private int port;

    CommitmentSteps(Link link, Steps steps, Wishes wishes, TestObject testObject, RandomGenerator random) {
        this.link = link;
        this.steps = steps;
        this.wishes = wishes;
        this.testObject = testObject;
        this.transaction = Uid.random(random);
        this.object = new SopReference(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uid.random(random));
    }

    void take() {
        if (!wishes.testObject()) {
            steps.notAsked(Step.Part.TEST_OBJECT, "none was stored; --with-test-object stores one, marked as such");
        } else if (!store()) {
            return;
        }
        try (CommitmentListener listener = listen()) {
            ask(listener != null);
        }
    }

    private boolean store() {
        steps.begin(Step.Part.TEST_OBJECT);
        try {
            TestObject.Made made = testObject.make();
            StoreOutcome outcome = new StorageUser(link.standing())
                    .store(
                            Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE,
                            made.sopInstance(),
                            Uids.JPEG_BASELINE8_BIT,
                            made.encoded());
            object = new SopReference(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, made.sopInstance());
            boolean stored = outcome instanceof StoreOutcome.Stored;
            if (stored) {
                steps.passed(
                        Step.Part.TEST_OBJECT,
                        "stored under Patient ID %s, SOP Instance UID %s; it may be deleted there"
                                .formatted(TestObject.PATIENT_ID, made.sopInstance()));
            } else {
                steps.failed(Step.Part.TEST_OBJECT, why(outcome));
            }
            return stored;
        } catch (IOException e) {
            steps.failed(Step.Part.TEST_OBJECT, String.valueOf(e.getMessage()));
            return false;
        }
    }

    private static String why(StoreOutcome outcome) {
        if (outcome instanceof StoreOutcome.Refused refused) {
            return "the archive refused it with status %04X %s"
                    .formatted(refused.status(), refused.comment())
                    .strip();
        }
        if (outcome instanceof StoreOutcome.StoredChanged changed) {
            return "the archive stored it, but changed something (status %04X %s); look which value in its log"
                    .formatted(changed.status(), changed.comment());
        }
        if (outcome instanceof StoreOutcome.NotSent notSent) {
            return notSent.reason();
        }
        return outcome instanceof StoreOutcome.Unknown unknown
                ? String.valueOf(unknown.cause().getMessage())
                : outcome.toString();
    }

    private @Nullable CommitmentListener listen() {
        if (wishes.listener().isEmpty()) {
            return null;
        }
        Wishes.Listener way = wishes.listener().get();
        AcceptorSettings settings =
                AcceptorSettings.of(link.calling(), List.of()).withDeadlines(link.deadlines());
        try {
            CommitmentListener listener = CommitmentListener.open(
                    way.address(),
                    way.tls().map(settings::withTls).orElse(settings),
                    way.archives(),
                    (report, from) -> deliver(report),
                    why -> turnedAway.add(String.valueOf(why.getMessage())));
            port = listener.address().getPort();
            return listener;
        } catch (IOException e) {
            steps.failed(
                    Step.Part.WAY_BACK,
                    e.getMessage()
                            + " If vestibule run is on this computer, it listens there already: stop it for the probe");
            return null;
        }
    }

    private void deliver(CommitmentReport report) throws RefusedException {
        if (!report.transaction().equals(transaction)) {
            throw new RefusedException(Status.UNSUITABLE_ARGUMENT, "this transaction was not asked for here");
        }
        delivered.add(report);
    }

    private void ask(boolean listening) {
        steps.begin(Step.Part.COMMITMENT);
        try {
            Association association = link.standing();
            if (association.accepted(Uids.STORAGE_COMMITMENT_PUSH_MODEL).isEmpty()) {
                steps.failed(
                        Step.Part.COMMITMENT,
                        "no Storage Commitment is offered here; that photographs are kept can then only be seen by asking for them");
                steps.notAsked(Step.Part.WAY_BACK, "there is no commitment to report");
                return;
            }
            CommitmentUser user = new CommitmentUser(association);
            OperationOutcome outcome = user.request(new CommitmentRequest(transaction, List.of(object)));
            if (outcome instanceof OperationOutcome.Done) {
                steps.passed(Step.Part.COMMITMENT, "the request was taken");
                wayBack(user, listening);
            } else {
                steps.failed(Step.Part.COMMITMENT, why(outcome));
                steps.notAsked(Step.Part.WAY_BACK, "the request was not taken");
            }
        } catch (AssociationException e) {
            steps.failed(Step.Part.COMMITMENT, String.valueOf(e.getMessage()));
        }
    }

    private static String why(OperationOutcome outcome) {
        if (outcome instanceof OperationOutcome.Refused refused) {
            return "the archive refused the request: %s %s"
                    .formatted(refused.status(), refused.comment())
                    .strip();
        }
        if (outcome instanceof OperationOutcome.NotSent notSent) {
            return notSent.reason();
        }
        return outcome instanceof OperationOutcome.Unknown unknown
                ? unknown.cause().getMessage()
                        + "; an archive may do so where it was not told at which host and port our AE title is found: have that entered"
                : outcome.toString();
    }

    private void wayBack(CommitmentUser user, boolean listening) {
        steps.begin(Step.Part.WAY_BACK);
        long end = System.nanoTime() + wishes.report().toNanos();
        Optional<CommitmentReport> here = Optional.empty();
        Optional<CommitmentReport> there = Optional.empty();
        while (here.isEmpty() && there.isEmpty() && System.nanoTime() - end < 0) {
            here = onOurs(user);
            there = Optional.ofNullable(delivered.poll());
        }
        if (here.isPresent()) {
            judge(here.get(), "on our own association");
        } else if (there.isPresent()) {
            judge(there.get(), "on an association of its own to our port " + port);
        } else if (listening) {
            steps.failed(Step.Part.WAY_BACK, nothingCame());
        } else {
            steps.notAsked(
                    Step.Part.WAY_BACK,
                    "no report came on our own association within %d s, and no port is set for one that the archive opens; set listener.port, or give --listen PORT"
                            .formatted(wishes.report().toSeconds()));
        }
    }

    /** Some archives report only once we have let go of our association, so its end is not the end of waiting. */
    private Optional<CommitmentReport> onOurs(CommitmentUser user) {
        try {
            return user.awaitReport(LOOK).filter(report -> report.transaction().equals(transaction));
        } catch (IOException ended) {
            return pause(ended);
        }
    }

    private Optional<CommitmentReport> pause(IOException ended) {
        try {
            CommitmentReport came = delivered.poll(LOOK.toMillis(), TimeUnit.MILLISECONDS);
            if (came != null) {
                delivered.add(came);
            }
        } catch (InterruptedException e) {
            ended.addSuppressed(e);
            Thread.currentThread().interrupt();
        }
        return Optional.empty();
    }

    private String nothingCame() {
        String seconds = wishes.report().toSeconds() + " s";
        if (!turnedAway.isEmpty()) {
            return "no report came within %s, but somebody called our port %d: %s; set the AE titles to agree (listener.callers has those that may call)"
                    .formatted(seconds, port, String.join("; ", turnedAway));
        }
        return "no report came within %s, and nobody called our port %d; have the archive told that %s is at this computer and this port, and let it through the firewall here"
                .formatted(seconds, port, link.calling());
    }

    private void judge(CommitmentReport report, String where) {
        boolean committed = report.committed().contains(object);
        boolean named = committed
                || report.failed().stream().anyMatch(failure -> failure.object().equals(object));
        if (!named) {
            steps.failed(
                    Step.Part.WAY_BACK,
                    "a report came %s, but it does not name the object that was asked about; its commitments cannot be relied on"
                            .formatted(where));
        } else if (wishes.testObject() != committed) {
            steps.failed(
                    Step.Part.WAY_BACK,
                    committed
                            ? "a report came %s and promises to keep an object that does not exist; its commitments cannot be relied on"
                                    .formatted(where)
                            : "a report came %s, but the archive does not commit itself to the test object: %s"
                                    .formatted(where, report.failed().get(0).words()));
        } else {
            steps.passed(
                    Step.Part.WAY_BACK,
                    "a report came %s and is right: %s"
                            .formatted(
                                    where,
                                    committed ? "the test object is kept" : "the object asked about is not there"));
        }
    }
}
