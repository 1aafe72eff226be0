package vestibule.bridge.delivery;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.Consignor.Item;
import vestibule.bridge.delivery.Consignor.Parcel;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.StoreOutcome;

/**
 * Delivers what is due over one association: sends, asks where an answer was missed, asks for commitment, and takes reports that come
 * meanwhile. Every step is told to the {@link Consignor} before the next is taken, so that it may end at any moment.
 */
public final class Drain {

    private static final Logger LOG = LoggerFactory.getLogger(Drain.class);
    private static final int BATCH = 25;
    private static final Duration REPORT_WAIT = Duration.ofMillis(500);
    private static final int REPORT_WAITS = 6;

    private final ArchiveSession.Line line;
    private final Consignor consignor;
    private final CommitmentReceiver.Handler reports;
    private volatile boolean stopped;
    private volatile @Nullable ArchiveSession session;

    /**
     * @param reports keeps commitment reports
     */
    public Drain(ArchiveSession.Line line, Consignor consignor, CommitmentReceiver.Handler reports) {
        this.line = line;
        this.consignor = consignor;
        this.reports = reports;
    }

    /** How a pass ended. */
    public sealed interface Pass {

        /**
         * Nothing more is due.
         *
         * @param parcels how many photographs went through it
         */
        record Emptied(int parcels) implements Pass {}

        /**
         * The archive could not be reached, or was lost.
         *
         * @param sentence why
         * @param parcels how many photographs went through it before
         */
        record Interrupted(String sentence, int parcels) implements Pass {}
    }

    /** Has the pass end after the photograph it is at. */
    public void stop() {
        stopped = true;
    }

    /** Ends the association at once; what was being sent is asked for another time. */
    public void cut() {
        stopped = true;
        ArchiveSession open = session;
        if (open != null) {
            open.abort();
        }
    }

    /**
     * Delivers until nothing is due.
     *
     * @throws IOException if the consignor cannot remember what became of something; then the association has been given up
     */
    public Pass run() throws IOException {
        State state = new State();
        Optional<Parcel> first = consignor.next();
        state.waiting = first.orElse(null);
        try {
            while (!stopped && !state.finished && state.lost == null) {
                over(state);
            }
        } catch (AssociationException e) {
            state.lost = String.valueOf(e.getMessage());
        } finally {
            session = null;
            if (state.waiting != null) {
                consignor.done(state.waiting);
            }
        }
        String lost = state.lost;
        return lost == null ? new Pass.Emptied(state.parcels) : new Pass.Interrupted(lost, state.parcels);
    }

    private static final class State {
        private @Nullable String lost;
        private @Nullable Parcel waiting;
        private int parcels;
        private boolean finished;
        private final List<Parcel> stored = new ArrayList<>();
        private final Set<String> studies = new HashSet<>();
    }

    /** One association; another one follows if a file needs what was not proposed. */
    private void over(State state) throws IOException {
        List<DicomFile> files = state.waiting == null
                ? List.of()
                : state.waiting.items().stream().map(Item::file).toList();
        try (ArchiveSession open = ArchiveSession.open(line, files, reports)) {
            session = open;
            try {
                over(open, state);
            } finally {
                consignor.unreported(open.unreported());
            }
        }
    }

    private void over(ArchiveSession open, State state) throws IOException {
        while (!stopped && open.isOpen() && state.waiting != null && carries(open, state.waiting)) {
            Parcel parcel = state.waiting;
            state.waiting = null;
            try {
                deliver(open, parcel, state);
            } finally {
                consignor.done(parcel);
            }
            state.parcels++;
            if (state.parcels % BATCH == 0 && open.isOpen()) {
                commit(open, state);
            }
            state.waiting = stopped || !open.isOpen() ? null : consignor.next().orElse(null);
        }
        if (!open.isOpen()) {
            state.lost = state.lost == null ? "the archive ended the association" : state.lost;
        } else if (state.waiting == null) {
            finish(open, state);
        }
    }

    private static boolean carries(ArchiveSession open, Parcel parcel) {
        return parcel.items().stream().allMatch(item -> open.proposes(item.file()));
    }

    /** Asks for what is left to commit and gives reports some time to come on this association; they may come on another one. */
    private void finish(ArchiveSession open, State state) throws IOException {
        commit(open, state);
        int waits = 0;
        while (waits < REPORT_WAITS
                && !stopped
                && open.isOpen()
                && !open.unreported().isEmpty()) {
            waits += open.awaitReport(REPORT_WAIT) ? 0 : 1;
        }
        state.waiting = stopped ? null : consignor.next().orElse(null);
        state.finished = state.waiting == null;
    }

    private void commit(ArchiveSession open, State state) throws IOException {
        List<Parcel> stored = List.copyOf(state.stored);
        state.stored.clear();
        if (!consignor.byCommitment() || stopped) {
            return;
        }
        if (!open.commits()) {
            consignor.notCommitting(
                    stored,
                    "the archive offers no storage commitment; have it switched on there, or set proof = \"read-back\"");
            return;
        }
        Optional<CommitmentRequest> request = consignor.toCommit(open.archive());
        while (request.isPresent()) {
            OperationOutcome outcome = open.commit(request.get());
            consignor.asked(request.get(), outcome);
            request = outcome instanceof OperationOutcome.Done ? consignor.toCommit(open.archive()) : Optional.empty();
        }
    }

    private void deliver(ArchiveSession open, Parcel parcel, State state) throws IOException {
        for (Item item : parcel.items()) {
            Next next = item.unsure() ? afterAsking(open, parcel, item, state) : Next.SEND;
            if (next == Next.SEND && !send(open, parcel, item, state)) {
                next = Next.LEAVE;
            }
            if (next == Next.LEAVE) {
                return;
            }
        }
        state.stored.add(parcel);
    }

    private enum Next {
        /** The object is to be sent. */
        SEND,
        /** The archive has it; the next one follows. */
        GO_ON,
        /** Nothing more of the photograph is to be sent now. */
        LEAVE
    }

    /** What to do with an object whose answer was missed: it is sent again only if the archive says that it does not have it. */
    private Next afterAsking(ArchiveSession open, Parcel parcel, Item item, State state) throws IOException {
        Presence presence = open.ask(item.file());
        if (presence instanceof Presence.Present) {
            return found(open, parcel, item, state);
        }
        if (presence instanceof Presence.Absent) {
            consignor.absent(parcel, item, "the archive was asked and does not have it");
            return Next.SEND;
        }
        Presence.Unsaid unsaid = (Presence.Unsaid) presence;
        if (unsaid.forGood() && open.isOpen() && item.resend()) {
            // The same object under the same identifier: an archive that has it already has it once all the same.
            consignor.absent(parcel, item, "the archive cannot be asked, and a person said to send it again");
            return Next.SEND;
        }
        if (unsaid.forGood() && open.isOpen()) {
            consignor.attention(
                    parcel,
                    "outcome-unknown",
                    "The answer to sending was missed, and the archive cannot be asked whether it has it (%s); look there, then --accept if it is there, or --retry to send the same object again, which doubles nothing."
                            .formatted(unsaid.reason()));
        } else {
            consignor.putOff(parcel, "the archive could not be asked: " + unsaid.reason());
        }
        return Next.LEAVE;
    }

    /** The answer that was missed may have said that something was changed, so it is asked anew whose the archive says it is. */
    private Next found(ArchiveSession open, Parcel parcel, Item item, State state) throws IOException {
        forget(item, state);
        List<String> changed = changedIdentity(open, item, state);
        if (!open.isOpen()) {
            // Not recorded as found, it is asked for another time, and this with it
            consignor.putOff(parcel, "the association ended while the archive was asked whose it is there");
            return Next.LEAVE;
        }
        consignor.found(parcel, item);
        return same(parcel, changed) ? Next.GO_ON : Next.LEAVE;
    }

    /** Sends one object; false if nothing more of the photograph is to be sent now. */
    private boolean send(ArchiveSession open, Parcel parcel, Item item, State state) throws IOException {
        if (!consignor.sending(parcel, item)) {
            return false;
        }
        StoreOutcome outcome = open.store(item.file());
        if (outcome instanceof StoreOutcome.Stored stored) {
            consignor.stored(parcel, item, stored.status(), "");
            return sameIdentity(open, parcel, item, state);
        }
        if (outcome instanceof StoreOutcome.StoredChanged changed) {
            consignor.stored(parcel, item, changed.status(), changed.comment());
            consignor.note(
                    parcel,
                    "the archive stored it with warning %04X%s"
                            .formatted(changed.status(), changed.comment().isEmpty() ? "" : ", " + changed.comment()));
            forget(item, state);
            return sameIdentity(open, parcel, item, state);
        }
        failed(open, parcel, item, outcome, state);
        return false;
    }

    private void failed(ArchiveSession open, Parcel parcel, Item item, StoreOutcome outcome, State state)
            throws IOException {
        if (outcome instanceof StoreOutcome.Refused refused) {
            consignor.refused(parcel, item, refused.status(), refused.comment(), refused.retry());
            if (refused.retry()) {
                consignor.putOff(parcel, "the archive asks to try later (%04X)".formatted(refused.status()));
            }
        } else if (outcome instanceof StoreOutcome.NotSent notSent) {
            consignor.absent(parcel, item, "it was not sent to its end");
            if (open.isOpen()) {
                consignor.attention(parcel, "not-accepted", sentence(notSent.reason()));
            } else {
                consignor.putOff(parcel, notSent.reason());
            }
        } else if (outcome instanceof StoreOutcome.Unknown unknown) {
            LOG.warn(
                    "{}: no answer to sending: {}",
                    parcel.photo(),
                    unknown.cause().getMessage());
            consignor.putOff(parcel, "no answer to sending: " + unknown.cause().getMessage());
        } else {
            throw new AssertionError(outcome);
        }
        if (!open.isOpen()) {
            state.lost = outcome instanceof StoreOutcome.Unknown unknown
                    ? String.valueOf(unknown.cause().getMessage())
                    : "the association ended while a photograph was sent";
        }
    }

    private static String sentence(String reason) {
        return reason.endsWith(".") ? reason : reason + ".";
    }

    private static void forget(Item item, State state) {
        item.file().dataSet().text(Attributes.STUDY_INSTANCE_UID).ifPresent(state.studies::remove);
    }

    /** Whether the archive keeps the study under the patient we sent; asked once for each study of a pass. */
    private boolean sameIdentity(ArchiveSession open, Parcel parcel, Item item, State state) throws IOException {
        return same(parcel, changedIdentity(open, item, state));
    }

    private static List<String> changedIdentity(ArchiveSession open, Item item, State state) {
        String study = item.file().dataSet().text(Attributes.STUDY_INSTANCE_UID).orElse("");
        if (!state.studies.add(study)) {
            return List.of();
        }
        List<String> changed = open.changedIdentity(item.file());
        if (!changed.isEmpty()) {
            state.studies.remove(study);
        }
        return changed;
    }

    private boolean same(Parcel parcel, List<String> changed) throws IOException {
        if (!changed.isEmpty()) {
            consignor.attention(
                    parcel,
                    "patient-changed",
                    "The archive keeps it under another patient's data than it was sent with (%s); compare there, then accept or correct."
                            .formatted(String.join(", ", changed)));
        }
        return changed.isEmpty();
    }
}
