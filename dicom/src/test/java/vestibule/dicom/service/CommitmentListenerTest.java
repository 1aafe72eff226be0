package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ProposedContext;

@DisplayName("The door for commitment reports (PS3.4 J.3.3)")
@Timeout(60)
class CommitmentListenerTest {

    private static final AeTitle US = new AeTitle("US");
    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final CommitmentReport REPORT = new CommitmentReport(
            new Uid("2.25.1"),
            List.of(new SopReference(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, new Uid("2.25.2"))),
            List.of());

    private final List<CommitmentReport> reports = new CopyOnWriteArrayList<>();
    private final List<IOException> turnedAway = new CopyOnWriteArrayList<>();
    private CommitmentListener listener;

    @BeforeEach
    void open() throws IOException {
        listener = CommitmentListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                AcceptorSettings.of(US, List.of()),
                Set.of(ARCHIVE),
                (report, from) -> reports.add(report),
                turnedAway::add);
    }

    @AfterEach
    void close() {
        listener.close();
    }

    private ApplicationEntity us() {
        return new ApplicationEntity(US, "127.0.0.1", listener.address().getPort());
    }

    @Test
    @DisplayName("takes a report of an archive that is named")
    void named() {
        assertThat(new CommitmentReporter(ARCHIVE, Deadlines.DEFAULT).deliver(REPORT, us()))
                .isInstanceOf(OperationOutcome.Done.class);
        assertThat(reports).containsExactly(REPORT);
    }

    @Test
    @DisplayName("rejects everybody else, and tells of it; without a name nobody can open it")
    void strangers() throws IOException {
        assertThat(new CommitmentReporter(new AeTitle("STRANGER"), Deadlines.DEFAULT).deliver(REPORT, us()))
                .isInstanceOfSatisfying(
                        OperationOutcome.NotSent.class,
                        notSent -> assertThat(notSent.reason()).contains("calling AE title not recognized"));
        assertThat(reports).isEmpty();
        listener.close();
        assertThat(turnedAway)
                .singleElement()
                .asString()
                .contains("called as “STRANGER” for “US”", "calling AE title not recognized");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> CommitmentListener.open(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(US, List.of()),
                        Set.of(),
                        (report, from) -> reports.add(report),
                        turnedAway::add));
    }

    @Test
    @DisplayName("offers no other SOP class of the standard, and no request for commitment")
    void nothingElse() throws IOException {
        List<Uid> others = Dictionary.standard().uids("SOP Class").stream()
                .map(Dictionary.UidEntry::uid)
                .filter(uid -> !uid.equals(Uids.STORAGE_COMMITMENT_PUSH_MODEL))
                .toList();
        for (int start = 0; start < others.size(); start += ProposedContext.MOST) {
            List<ProposedContext> proposals =
                    others.subList(start, Math.min(others.size(), start + ProposedContext.MOST)).stream()
                            .map(uid -> ProposedContext.of(uid, Uids.IMPLICIT_VR_LITTLE_ENDIAN))
                            .toList();
            try (Association association =
                    Association.open(AssociationRequest.of(ARCHIVE, proposals), us(), Deadlines.DEFAULT)) {
                assertThat(association.contexts()).noneMatch(NegotiatedContext::isAccepted);
            }
        }
        CommitmentRequest request = new CommitmentRequest(new Uid("2.25.3"), REPORT.committed());
        AssociationRequest plain = AssociationRequest.of(ARCHIVE, List.of(CommitmentUser.proposal()));
        try (Association association = Association.open(plain, us(), Deadlines.DEFAULT)) {
            assertThat(new CommitmentUser(association).request(request)).isInstanceOf(OperationOutcome.Refused.class);
        }
        AssociationException wrongTitle = catchThrowableOfType(
                AssociationException.class,
                () -> Association.open(
                        plain, new ApplicationEntity(ARCHIVE, "127.0.0.1", us().port()), Deadlines.DEFAULT));
        assertThat(wrongTitle).hasMessageContaining("called AE title not recognized");
    }
}
