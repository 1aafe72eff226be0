package vestibule.bridge.delivery;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.CommitmentUser;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryOutcome;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

/**
 * One association over which objects are stored, asked for and committed (PS3.4 B, C, J). What an archive does not offer is told by the
 * outcome of the operation.
 */
public final class ArchiveSession implements AutoCloseable {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;

    /** Contexts that are not for storage: query and commitment. */
    private static final int OTHER_CONTEXTS = 2;

    private final Association association;
    private final StorageUser storage;
    private final QueryUser query;
    private final CommitmentUser commitment;
    private final Set<ProposedContext> proposed;
    private final Duration answer;

    /** Transactions that were asked for on this association and have no report yet. */
    private final Set<Uid> unreported = new LinkedHashSet<>();

    private ArchiveSession(
            Association association,
            Set<ProposedContext> proposed,
            CommitmentReceiver.Handler reports,
            Duration answer) {
        this.association = association;
        this.storage = new StorageUser(association);
        this.query = new QueryUser(association, MODEL);
        this.commitment = new CommitmentUser(association, (report, from) -> {
            reports.report(report, from);
            unreported.remove(report.transaction());
        });
        this.proposed = proposed;
        this.answer = answer;
    }

    /**
     * Whom to call, and as whom.
     *
     * @param archive the archive
     * @param callingAe our own title
     * @param deadlines how long each wait may last
     */
    public record Line(Destination archive, String callingAe, Deadlines deadlines) {}

    /**
     * Opens one.
     *
     * @param files what is to be stored; photographs as JPEG Baseline are proposed in any case
     * @param reports keeps commitment reports that come on this association
     * @throws AssociationException if none comes about; the message says what to change
     */
    public static ArchiveSession open(Line line, List<DicomFile> files, CommitmentReceiver.Handler reports)
            throws AssociationException {
        Set<ProposedContext> proposed = new LinkedHashSet<>();
        proposed.add(ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.JPEG_BASELINE8_BIT));
        StorageUser.proposals(files).stream()
                .limit(ProposedContext.MOST - OTHER_CONTEXTS - 1L)
                .forEach(proposed::add);
        List<ProposedContext> all = new ArrayList<>(proposed);
        all.add(QueryUser.proposal(MODEL));
        all.add(CommitmentUser.proposal());
        Association association = Association.open(
                AssociationRequest.of(new AeTitle(line.callingAe()), all),
                line.archive().entity(),
                line.deadlines());
        return new ArchiveSession(
                association, proposed, reports, line.deadlines().response());
    }

    /** Whether operations can still be asked for. */
    public boolean isOpen() {
        return association.isOpen();
    }

    /** Whether the way this file travels was proposed when the association was opened. */
    public boolean proposes(DicomFile file) {
        return proposed.containsAll(StorageUser.proposals(List.of(file)));
    }

    /** Whether the archive takes requests for commitment. */
    public boolean commits() {
        return association.accepted(Uids.STORAGE_COMMITMENT_PUSH_MODEL).isPresent();
    }

    /** Sends an object. */
    public StoreOutcome store(DicomFile file) {
        return storage.store(file);
    }

    /** Asks whether the archive has an object. */
    public Presence ask(DicomFile file) {
        Optional<DataSet> keys = keys(file);
        if (keys.isEmpty()) {
            return new Presence.Unsaid("the object lacks the identifiers it is asked for by", true);
        }
        QueryOutcome outcome = query.find(QueryLevel.IMAGE, keys.get(), 2, answer);
        boolean found = outcome.matches().stream()
                .anyMatch(match -> match.text(Attributes.SOP_INSTANCE_UID)
                        .equals(file.dataSet().text(Attributes.SOP_INSTANCE_UID)));
        if (found) {
            return new Presence.Present();
        }
        return outcome instanceof QueryOutcome.Complete ? new Presence.Absent() : unsaid(outcome);
    }

    /** The unique keys of an object at the level of images (PS3.4 C.6.2.1). */
    static Optional<DataSet> keys(DicomFile file) {
        DataSet object = file.dataSet();
        boolean whole = object.hasValue(Attributes.STUDY_INSTANCE_UID)
                && object.hasValue(Attributes.SERIES_INSTANCE_UID)
                && object.hasValue(Attributes.SOP_INSTANCE_UID);
        return whole
                ? Optional.of(DataSet.builder()
                        .putIfKnown(Attributes.STUDY_INSTANCE_UID, object.text(Attributes.STUDY_INSTANCE_UID))
                        .putIfKnown(Attributes.SERIES_INSTANCE_UID, object.text(Attributes.SERIES_INSTANCE_UID))
                        .putIfKnown(Attributes.SOP_INSTANCE_UID, object.text(Attributes.SOP_INSTANCE_UID))
                        .build())
                : Optional.empty();
    }

    private static Presence unsaid(QueryOutcome outcome) {
        if (outcome instanceof QueryOutcome.NotSent notSent) {
            return new Presence.Unsaid(notSent.reason(), true);
        }
        if (outcome instanceof QueryOutcome.Refused refused) {
            return new Presence.Unsaid(
                    "the archive refused the query: " + refused.status(),
                    !refused.status().retry());
        }
        if (outcome instanceof QueryOutcome.Unknown unknown) {
            return new Presence.Unsaid(String.valueOf(unknown.cause().getMessage()), false);
        }
        return new Presence.Unsaid("the archive answered with more than one object", false);
    }

    /**
     * Asks under which patient the archive keeps the study of an object.
     *
     * @return the attributes of the patient's identity that differ from ours; empty if none does, or the archive does not say
     */
    public List<String> changedIdentity(DicomFile file) {
        Optional<String> study = file.dataSet().text(Attributes.STUDY_INSTANCE_UID);
        if (study.isEmpty()) {
            return List.of();
        }
        DataSet.Builder keys = DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, study.get());
        Identity.KEYS.forEach(keys::putEmpty);
        return query.find(QueryLevel.STUDY, keys.build(), 2, answer).matches().stream()
                .filter(match -> match.text(Attributes.STUDY_INSTANCE_UID).equals(study))
                .findFirst()
                .map(match -> Identity.changed(file.dataSet(), match))
                .orElse(List.of());
    }

    /** Asks the archive to take responsibility; what it says comes later to the keeper of reports. */
    public OperationOutcome commit(CommitmentRequest request) {
        // The report may come before the answer to the request
        unreported.add(request.transaction());
        OperationOutcome outcome = commitment.request(request);
        if (outcome instanceof OperationOutcome.Refused || outcome instanceof OperationOutcome.NotSent) {
            unreported.remove(request.transaction());
        }
        return outcome;
    }

    /** The transactions that were asked for on this association and whose report did not come on it. */
    public List<Uid> unreported() {
        return List.copyOf(unreported);
    }

    /**
     * Waits for a commitment report on this association.
     *
     * @return whether one came
     * @throws IOException if the association ended
     */
    public boolean awaitReport(Duration allowed) throws IOException {
        return commitment.awaitReport(allowed).isPresent();
    }

    /** The archive's title, as reports name it. */
    public String archive() {
        return association.peer().called().value();
    }

    /** A SOP Instance UID, from text that is known to be one. */
    public static Uid uid(String text) {
        return Uid.parse(text).orElseThrow(() -> new IllegalArgumentException("no unique identifier: " + text));
    }

    /** Gives up at once; may be called by another thread. */
    public void abort() {
        association.abort();
    }

    @Override
    public void close() {
        association.close();
    }
}
