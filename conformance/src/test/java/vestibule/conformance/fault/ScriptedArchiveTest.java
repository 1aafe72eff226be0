package vestibule.conformance.fault;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.app.Main;
import vestibule.bridge.app.Terminal;
import vestibule.conformance.fault.Script.Promise;
import vestibule.conformance.fault.Script.Reception;
import vestibule.conformance.fault.Script.Report;
import vestibule.conformance.fault.Script.Way;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.CommitmentUser;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryOutcome;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

@DisplayName("An archive that does as its script says")
@Timeout(60)
class ScriptedArchiveTest {

    private static final AeTitle OWN = new AeTitle("VESTIBULE");
    private static final Deadlines PATIENCE = Deadlines.all(Duration.ofSeconds(20));

    @TempDir
    Path folder;

    private ScriptedArchive archive;
    private DicomFile object;
    private String scan;

    @BeforeEach
    void start() throws IOException {
        archive = ScriptedArchive.start(Script.HEALTHY);
        byte[] jpeg = Photographs.jpeg(1, 64);
        scan = ScanHash.of(jpeg).orElseThrow();
        Path photo = Files.write(folder.resolve("photo.jpg"), jpeg);
        Path file = folder.resolve("object.dcm");
        int exit = Main.run(
                new String[] {
                    "wrap",
                    photo.toString(),
                    "--out",
                    file.toString(),
                    "--view",
                    "teeth-front-occlusion",
                    "--patient-id",
                    "PG-0001",
                    "--patient-name",
                    "Exempel^Zoe"
                },
                new Terminal(System.out, System.err));
        assertThat(exit).isZero();
        object = DicomFile.read(file);
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private Association associate() throws IOException {
        List<ProposedContext> contexts = new ArrayList<>(StorageUser.proposals(List.of(object)));
        contexts.add(CommitmentUser.proposal());
        contexts.add(QueryUser.proposal(QueryLevel.Model.STUDY_ROOT));
        ApplicationEntity peer = new ApplicationEntity(
                ScriptedArchive.TITLE, "127.0.0.1", archive.address().getPort());
        return Association.open(AssociationRequest.of(OWN, contexts), peer, PATIENCE);
    }

    private StoreOutcome store() throws IOException {
        try (Association association = associate()) {
            return new StorageUser(association).store(object);
        }
    }

    private SopReference reference() {
        return new SopReference(
                object.sopClass().orElseThrow(), object.sopInstance().orElseThrow());
    }

    private static Script storing(Reception reception) {
        return new Script() {
            @Override
            public Reception store(HeldObject arrived, int number) {
                return reception;
            }
        };
    }

    @Test
    @DisplayName("healthy: keeps what it gets, knows whose and which picture it is")
    void healthy() throws IOException {
        assertThat(store()).isInstanceOf(StoreOutcome.Stored.class);
        HeldObject held = archive.held().get(reference().sopInstance());
        assertThat(held.patientId()).isEqualTo("PG-0001");
        assertThat(held.scan()).contains(scan);
        store();
        assertThat(archive.arrivals()).isEqualTo(2);
        assertThat(archive.held()).hasSize(1);
        assertThat(archive.held().get(reference().sopInstance()).conflicts()).isFalse();
    }

    @Test
    @DisplayName("any status, whether it keeps the object or not")
    void statuses() throws IOException {
        archive.script(storing(Reception.status(0xA700, false)));
        assertThat(store()).isInstanceOf(StoreOutcome.Refused.class);
        assertThat(archive.held()).isEmpty();
        archive.script(storing(Reception.FORGOTTEN));
        assertThat(store()).isInstanceOf(StoreOutcome.Stored.class);
        assertThat(archive.held()).isEmpty();
    }

    @Test
    @DisplayName("keeps an object and eats the answer")
    void eats() throws IOException {
        archive.script(storing(Reception.ANSWER_EATEN));
        assertThat(store()).isInstanceOf(StoreOutcome.Unknown.class);
        assertThat(archive.held()).hasSize(1);
    }

    @Test
    @DisplayName("files an object under another patient, and its queries say so")
    void refiles() throws IOException {
        archive.script(storing(Reception.refiled("PG-0099")));
        assertThat(store()).isInstanceOf(StoreOutcome.StoredChanged.class);
        QueryOutcome found;
        try (Association association = associate()) {
            DataSet keys = DataSet.builder()
                    .put(Attributes.SOP_INSTANCE_UID, reference().sopInstance().value())
                    .putEmpty(Attributes.PATIENT_ID)
                    .build();
            found = new QueryUser(association, QueryLevel.Model.STUDY_ROOT)
                    .find(QueryLevel.IMAGE, keys, 10, Duration.ofSeconds(10));
        }
        assertThat(((QueryOutcome.Complete) found).matches())
                .singleElement()
                .satisfies(
                        match -> assertThat(match.text(Attributes.PATIENT_ID)).contains("PG-0099"));
    }

    @Test
    @DisplayName("tells the truth about what it keeps, on the same association")
    void promises() throws IOException {
        store();
        Optional<CommitmentReport> report = ask(archive -> {});
        assertThat(report).get().satisfies(one -> assertThat(one.committed()).containsExactly(reference()));
        assertThat(archive.promised()).containsExactly(reference().sopInstance());
        archive.forget(reference().sopInstance());
        assertThat(ask(archive -> {}))
                .get()
                .satisfies(one -> assertThat(one.failed()).hasSize(1));
    }

    private Optional<CommitmentReport> ask(Consumer<ScriptedArchive> before) throws IOException {
        before.accept(archive);
        try (Association association = associate()) {
            CommitmentUser user = new CommitmentUser(association);
            OperationOutcome outcome = user.request(new CommitmentRequest(new Uid("2.25.77"), List.of(reference())));
            assertThat(outcome).isInstanceOf(OperationOutcome.Done.class);
            return user.awaitReport(Duration.ofSeconds(1));
        }
    }

    @Test
    @DisplayName("delivers a report late, on an association of its own, twice if it is told")
    void late() throws IOException {
        List<CommitmentReport> heard = new ArrayList<>();
        ServiceProvider services =
                new ServiceProvider(List.of(new CommitmentReceiver((report, from) -> heard.add(report))));
        try (AssociationListener listener = services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), AcceptorSettings.of(OWN, List.of()))) {
            archive.reportTo(
                    new ApplicationEntity(OWN, "127.0.0.1", listener.address().getPort()));
            archive.script(new Script() {
                @Override
                public Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
                    Report report = Promise.truthfulReport(request, held, Way.LATE);
                    return Promise.reports(List.of(report, report));
                }
            });
            store();
            assertThat(ask(archive -> {})).isEmpty();
            assertThat(archive.promised()).isEmpty();
            assertThat(archive.deliverLate()).isEqualTo(2);
        }
        assertThat(heard)
                .hasSize(2)
                .allSatisfy(report -> assertThat(report.committed()).containsExactly(reference()));
        assertThat(archive.promised()).hasSize(1);
    }
}
