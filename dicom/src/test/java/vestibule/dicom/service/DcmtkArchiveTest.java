package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.Tool;

@DisplayName("Against DCMTK's archive: query and retrieve")
@Timeout(120)
class DcmtkArchiveTest extends DcmtkFixture {

    /** An archive that knows VESTIBULE to listen on a port. */
    private int startDcmqrscp(int portOfVestibule) throws IOException {
        int port = Tool.freePort();
        Path store = Files.createDirectories(folder.resolve("store"));
        Path configuration = folder.resolve("dcmqrscp.cfg");
        Files.writeString(configuration, """
                MaxPDUSize = 16384
                MaxAssociations = 16
                HostTable BEGIN
                vestibule = (VESTIBULE, 127.0.0.1, %d)
                HostTable END
                VendorTable BEGIN
                VendorTable END
                AETable BEGIN
                QRSCP %s RW (200, 1024mb) ANY
                AETable END
                """.formatted(portOfVestibule, store));
        closedLater(Tool.serve(
                folder,
                port,
                Map.of(),
                "dcmqrscp",
                "-v",
                "+xy",
                "-xy",
                "-c",
                configuration.toString(),
                String.valueOf(port)));
        return port;
    }

    @Test
    @DisplayName("dcmqrscp finds what we stored, at each level of both models")
    void query() throws IOException {
        int port = startDcmqrscp(1);
        DicomFile photo = Objects.photo(objects, 1000, 1);
        List<ProposedContext> contexts = new ArrayList<>(StorageUser.proposals(List.of(photo)));
        contexts.add(QueryUser.proposal(QueryLevel.Model.STUDY_ROOT));
        contexts.add(QueryUser.proposal(QueryLevel.Model.PATIENT_ROOT));
        Association association = associate(port, "QRSCP", contexts);
        assertThat(new StorageUser(association).store(photo)).isEqualTo(new StoreOutcome.Stored(0));
        DataSet keys = DataSet.builder()
                .put(Attributes.PATIENT_ID, "P-1")
                .putEmpty(Attributes.PATIENT_NAME)
                .build();
        QueryOutcome patients =
                new QueryUser(association, QueryLevel.Model.PATIENT_ROOT).find(QueryLevel.PATIENT, keys, 10, LONG);
        assertThat(patients).isInstanceOf(QueryOutcome.Complete.class);
        assertThat(patients.matches().get(0).text(Attributes.PATIENT_NAME)).contains("Wintergreen^Otto");
        DataSet studyKeys =
                keys.toBuilder().putEmpty(Attributes.STUDY_INSTANCE_UID).build();
        QueryUser studyRoot = new QueryUser(association, QueryLevel.Model.STUDY_ROOT);
        QueryOutcome studies = studyRoot.find(QueryLevel.STUDY, studyKeys, 10, LONG);
        String study =
                studies.matches().get(0).text(Attributes.STUDY_INSTANCE_UID).orElseThrow();
        assertThat(photo.dataSet().text(Attributes.STUDY_INSTANCE_UID)).contains(study);
        QueryOutcome none = studyRoot.find(
                QueryLevel.STUDY,
                studyKeys.toBuilder().put(Attributes.PATIENT_ID, "NOBODY").build(),
                10,
                LONG);
        assertThat(none).isEqualTo(new QueryOutcome.Complete(List.of(), true));
    }

    private List<DicomFile> stored(int port) throws IOException {
        List<DicomFile> photos = List.of(Objects.photo(objects, 300_001, 1), Objects.photo(objects, 70_000, 2));
        try (Association association = associate(port, "QRSCP", StorageUser.proposals(photos))) {
            for (DicomFile photo : photos) {
                assertThat(new StorageUser(association).store(photo)).isEqualTo(new StoreOutcome.Stored(0));
            }
        }
        return photos;
    }

    private StorageProvider keeping(List<byte[]> kept) {
        return new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                received,
                1 << 30,
                object -> {
                    DicomFile file = DicomFile.read(object.file());
                    kept.add(Objects.pixels(
                            file.dataSet().find(Attributes.PIXEL_DATA).orElseThrow()));
                    return Status.SUCCESS;
                });
    }

    private static DataSet studyOf(DicomFile photo) {
        return DataSet.builder()
                .put(
                        Attributes.STUDY_INSTANCE_UID,
                        photo.dataSet().text(Attributes.STUDY_INSTANCE_UID).orElseThrow())
                .build();
    }

    @Test
    @DisplayName("dcmqrscp gives a study back by C-GET, on the association that asks")
    void get() throws IOException {
        int port = startDcmqrscp(1);
        List<DicomFile> photos = stored(port);
        List<byte[]> kept = new CopyOnWriteArrayList<>();
        StorageProvider storage = keeping(kept);
        AssociationRequest request =
                RetrieveUser.getRequest(new AeTitle("VESTIBULE"), QueryLevel.Model.STUDY_ROOT, storage.contexts());
        Association association = closedLater(Association.open(
                request, new ApplicationEntity(new AeTitle("QRSCP"), "127.0.0.1", port), Deadlines.DEFAULT));
        RetrieveUser user = new RetrieveUser(association, QueryLevel.Model.STUDY_ROOT);
        assertThat(user.get(QueryLevel.STUDY, studyOf(photos.get(0)), storage))
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(1, 0, 0)));
        assertThat(kept).hasSize(1);
        assertThat(kept.get(0))
                .isEqualTo(Objects.pixels(
                        photos.get(0).dataSet().find(Attributes.PIXEL_DATA).orElseThrow()));
        assertThat(user.get(
                        QueryLevel.STUDY,
                        DataSet.builder()
                                .put(Attributes.STUDY_INSTANCE_UID, "1.2.3")
                                .build(),
                        storage))
                .as("nothing to give is done, with nothing given")
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(0, 0, 0)));
    }

    @Test
    @DisplayName("dcmqrscp sends a study to our listener by C-MOVE, and refuses a destination it does not know")
    void move() throws IOException {
        List<byte[]> kept = new CopyOnWriteArrayList<>();
        AssociationListener listener = closedLater(new ServiceProvider(List.of(keeping(kept)))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(new AeTitle("VESTIBULE"), List.of())));
        int port = startDcmqrscp(listener.address().getPort());
        List<DicomFile> photos = stored(port);
        Association association =
                associate(port, "QRSCP", List.of(RetrieveUser.moveProposal(QueryLevel.Model.STUDY_ROOT)));
        RetrieveUser user = new RetrieveUser(association, QueryLevel.Model.STUDY_ROOT);
        assertThat(user.move(QueryLevel.STUDY, studyOf(photos.get(1)), new AeTitle("VESTIBULE")))
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(1, 0, 0)));
        assertThat(kept).hasSize(1);
        RetrieveOutcome.Refused refused =
                (RetrieveOutcome.Refused) user.move(QueryLevel.STUDY, studyOf(photos.get(1)), new AeTitle("NOBODY"));
        assertThat(refused.status().code()).isEqualTo(0xA801);
        assertThat(refused.status().words()).contains("have its AE title and address entered at the archive");
    }
}
