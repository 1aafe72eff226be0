package vestibule.bridge.probe;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Progress;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.tls.TlsFacts;
import vestibule.dicom.service.CommitmentUser;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.VerificationUser;
import vestibule.dicom.service.WorklistUser;

/** The association of a probe: the way there in steps, and a new one where a step has ended it. */
final class Link implements AutoCloseable {

    private static final List<ProposedContext> PROPOSALS = List.of(
            VerificationUser.proposal(),
            ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.JPEG_BASELINE8_BIT),
            ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.EXPLICIT_VR_LITTLE_ENDIAN),
            ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.IMPLICIT_VR_LITTLE_ENDIAN),
            QueryUser.proposal(QueryLevel.Model.STUDY_ROOT),
            WorklistUser.proposal(),
            CommitmentUser.proposal());

    private final ApplicationEntity archive;
    private final AeTitle calling;
    private final Deadlines deadlines;
    private @Nullable Association association;
    private volatile boolean later;

    Link(ApplicationEntity archive, AeTitle calling, Duration each) {
        this.archive = archive;
        this.calling = calling;
        this.deadlines = Deadlines.all(each);
    }

    /** Whether the archive rejected us for now. */
    boolean triesLater() {
        return later;
    }

    ApplicationEntity archive() {
        return archive;
    }

    AeTitle calling() {
        return calling;
    }

    Deadlines deadlines() {
        return deadlines;
    }

    /** How far the way has come. */
    private final class Way implements Progress {
        private final Steps steps;
        private Optional<TlsFacts> tls = Optional.empty();

        Way(Steps steps) {
            this.steps = steps;
        }

        @Override
        public void resolved(List<InetAddress> addresses) {
            steps.passed(
                    Step.Part.NAME,
                    addresses.stream().map(InetAddress::getHostAddress).collect(Collectors.joining(", ")));
            steps.begin(Step.Part.CONNECTION);
        }

        @Override
        public void connected(InetSocketAddress address) {
            steps.passed(
                    Step.Part.CONNECTION,
                    "port %d of %s answers"
                            .formatted(address.getPort(), address.getAddress().getHostAddress()));
            steps.begin(archive.tls().isPresent() ? Step.Part.TLS : Step.Part.ASSOCIATION);
        }

        @Override
        public void secured(TlsFacts facts) {
            tls = Optional.of(facts);
            steps.begin(Step.Part.ASSOCIATION);
        }
    }

    /** Goes the way for the first time; false if there is no association at its end. */
    boolean open(Steps steps) {
        Way way = new Way(steps);
        try {
            Association opened = Association.open(AssociationRequest.of(calling, PROPOSALS), archive, deadlines, way);
            association = opened;
            tellTls(steps, way);
            steps.passed(Step.Part.ASSOCIATION, accepted(opened));
            return true;
        } catch (AssociationException e) {
            tellFailure(steps, way, e);
            return false;
        }
    }

    private String accepted(Association opened) {
        String implementation = opened.peer().implementationVersion().replaceAll("\\p{Cntrl}", "?");
        return "%s accepts %s%s"
                .formatted(archive, calling, implementation.isBlank() ? "" : " (it is " + implementation.strip() + ")");
    }

    private void tellTls(Steps steps, Way way) {
        if (archive.tls().isEmpty()) {
            steps.notAsked(Step.Part.TLS, "it is called as dicom://, so what is sent can be read on the way");
        }
        way.tls.ifPresent(facts -> steps.passed(
                Step.Part.TLS,
                "%s with %s%s"
                        .formatted(
                                facts.protocol(),
                                facts.cipherSuite(),
                                facts.peer()
                                        .map(certificate -> "; its certificate is valid until "
                                                + certificate
                                                        .getNotAfter()
                                                        .toInstant()
                                                        .atZone(ZoneOffset.UTC)
                                                        .toLocalDate())
                                        .orElse(""))));
    }

    private void tellFailure(Steps steps, Way way, AssociationException e) {
        String sentence = String.valueOf(e.getMessage());
        if (e instanceof AssociationException.NotReachable notReachable) {
            boolean name = switch (notReachable.obstacle()) {
                case NAME_NOT_FOUND, NAME_NOT_ANSWERED -> true;
                case REFUSED, NO_ROUTE, TIMED_OUT, OTHER -> false;
            };
            steps.failed(name ? Step.Part.NAME : Step.Part.CONNECTION, sentence);
            return;
        }
        if (e instanceof AssociationException.NotSecured) {
            steps.failed(Step.Part.TLS, sentence);
            return;
        }
        tellTls(steps, way);
        later = e instanceof AssociationException.Rejected rejected
                && rejected.rejection().isTransient();
        steps.failed(Step.Part.ASSOCIATION, sentence + advice(e));
    }

    private String advice(AssociationException e) {
        if (e instanceof AssociationException.DeadlinePassed) {
            return archive.tls().isPresent()
                    ? ""
                    : "; a web server, or a port that expects TLS, may keep silent like this";
        }
        if (!(e instanceof AssociationException.ConnectionLost)) {
            return "";
        }
        return archive.tls().isPresent()
                ? "; it gave no answer to our association request: check the AE titles, and its log"
                : "; it gave no answer to our association request: check that the port is the archive's DICOM port, that it does not"
                        + " expect TLS (then call it as dicoms://), and that it knows our AE title and address";
    }

    /** The association, a new one if the last one has ended. */
    Association standing() throws AssociationException {
        Association now = association;
        if (now == null || !now.isOpen()) {
            close();
            now = Association.open(AssociationRequest.of(calling, PROPOSALS), archive, deadlines);
            association = now;
        }
        return now;
    }

    @Override
    public void close() {
        Association now = association;
        association = null;
        if (now != null) {
            now.close();
        }
    }
}
