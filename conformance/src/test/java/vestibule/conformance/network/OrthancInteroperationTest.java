package vestibule.conformance.network;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.CommitmentUser;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.QueryKeys;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryOutcome;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.RetrieveOutcome;
import vestibule.dicom.service.RetrieveUser;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;
import vestibule.dicom.service.VerificationUser;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayName("Against Orthanc: verification, storage, query, C-GET, C-MOVE, commitment")
@Timeout(180)
class OrthancInteroperationTest {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;
    private static final Duration LONG = Duration.ofSeconds(60);

    @TempDir
    private static Path folder;

    private Receiving receiving;
    private OrthancProcess orthanc;
    private List<DicomFile> photographs;

    @BeforeAll
    void start() throws IOException {
        receiving = new Receiving(folder);
        orthanc = OrthancProcess.start("Utf8", Receiving.TITLE.value(), receiving.port());
        photographs = NetworkPhotographs.write(folder, 3);
        try (Association association = open(StorageUser.proposals(photographs))) {
            for (DicomFile photograph : photographs) {
                assertThat(new StorageUser(association).store(photograph)).isEqualTo(new StoreOutcome.Stored(0));
            }
        }
    }

    @AfterAll
    void stop() throws IOException {
        if (orthanc != null) {
            orthanc.close();
        }
        receiving.close();
    }

    private ApplicationEntity peer() {
        return new ApplicationEntity(new AeTitle(orthanc.title()), orthanc.host(), orthanc.port());
    }

    private Association open(List<ProposedContext> contexts) throws IOException {
        return Association.open(AssociationRequest.of(Receiving.TITLE, contexts), peer(), Deadlines.DEFAULT);
    }

    private static DataSet study() {
        return DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, NetworkPhotographs.STUDY.value())
                .build();
    }

    private void everyPictureCameBack() throws IOException {
        assertThat(receiving.instances())
                .containsExactlyInAnyOrderElementsOf(NetworkPhotographs.instances(photographs));
        for (DicomFile photograph : photographs) {
            byte[] sent = NetworkPhotographs.picture(photograph);
            assertThat(receiving.pictures()).anyMatch(picture -> Arrays.equals(picture, sent));
        }
        receiving.forget();
    }

    @Test
    @DisplayName("answers our echo")
    void echo() throws IOException {
        try (Association association = open(List.of(VerificationUser.proposal()))) {
            assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
        }
    }

    @Test
    @DisplayName("keeps what we send, byte for byte")
    void store() throws IOException {
        for (DicomFile photograph : photographs) {
            Path kept = orthanc.fetch(photograph.sopInstance().orElseThrow().value(), folder);
            assertThat(NetworkPhotographs.picture(DicomFile.read(kept)))
                    .isEqualTo(NetworkPhotographs.picture(photograph));
        }
    }

    @Test
    @DisplayName("finds it, and every key we ask for comes back")
    void query() throws IOException {
        try (Association association = open(List.of(QueryUser.proposal(MODEL)))) {
            DataSet keys = DataSet.builder()
                    .put(Attributes.PATIENT_NAME, "Weiß*")
                    .putEmpty(Attributes.PATIENT_ID)
                    .putEmpty(Attributes.STUDY_INSTANCE_UID)
                    .build();
            QueryOutcome outcome = new QueryUser(association, MODEL).find(QueryLevel.STUDY, keys, 10, LONG);
            assertThat(outcome).isInstanceOf(QueryOutcome.Complete.class);
            assertThat(outcome.matches()).hasSize(1);
            DataSet match = outcome.matches().get(0);
            assertThat(QueryKeys.missing(keys, match)).isEmpty();
            assertThat(match.text(Attributes.PATIENT_NAME)).contains("Weiß^Zoë");
            assertThat(match.text(Attributes.STUDY_INSTANCE_UID)).contains(NetworkPhotographs.STUDY.value());
        }
    }

    @Test
    @DisplayName("gives the study back by C-GET")
    void get() throws IOException {
        receiving.forget();
        AssociationRequest request = RetrieveUser.getRequest(
                Receiving.TITLE, MODEL, receiving.storage().contexts());
        try (Association association = Association.open(request, peer(), Deadlines.DEFAULT)) {
            assertThat(new RetrieveUser(association, MODEL).get(QueryLevel.STUDY, study(), receiving.storage()))
                    .isInstanceOf(RetrieveOutcome.Done.class);
        }
        everyPictureCameBack();
    }

    @Test
    @DisplayName("sends the study to our listener by C-MOVE")
    void move() throws IOException {
        receiving.forget();
        try (Association association = open(List.of(RetrieveUser.moveProposal(MODEL)))) {
            assertThat(new RetrieveUser(association, MODEL).move(QueryLevel.STUDY, study(), Receiving.TITLE))
                    .isInstanceOf(RetrieveOutcome.Done.class);
        }
        everyPictureCameBack();
    }

    @Test
    @DisplayName("commits to what it has, on an association it opens, and to nothing else")
    void commitment() throws IOException, InterruptedException {
        List<SopReference> objects = new ArrayList<>();
        for (Uid instance : NetworkPhotographs.instances(photographs)) {
            objects.add(new SopReference(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, instance));
        }
        SopReference absent = new SopReference(
                Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, new Uid(NetworkPhotographs.SERIES.value() + ".99"));
        objects.add(absent);
        CommitmentRequest request = new CommitmentRequest(new Uid("2.25.4711"), objects);
        try (Association association = open(List.of(CommitmentUser.proposal()))) {
            assertThat(new CommitmentUser(association).request(request)).isInstanceOf(OperationOutcome.Done.class);
        }
        CommitmentReport report = receiving.reports().poll(LONG.toSeconds(), TimeUnit.SECONDS);
        assertThat(report).isNotNull();
        assertThat(report.transaction()).isEqualTo(request.transaction());
        assertThat(report.committed()).containsExactlyInAnyOrderElementsOf(objects.subList(0, 3));
        assertThat(report.failed()).extracting(CommitmentReport.Failure::object).containsExactly(absent);
        assertThat(report.unmentioned(request)).isEmpty();
    }
}
