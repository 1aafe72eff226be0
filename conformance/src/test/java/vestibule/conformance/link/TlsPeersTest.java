package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.conformance.peer.SecuredReceiver;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.tls.CredentialsException;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;
import vestibule.dicom.service.VerificationProvider;
import vestibule.dicom.service.VerificationUser;
import vestibule.samples.certificate.Authority;

@DisplayName("TLS with DCMTK and Orthanc, certificates on both sides (PS3.15 B.12)")
@Timeout(180)
class TlsPeersTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");

    @TempDir
    static Path folder;

    private static Authority root;
    private static Authority.Pair own;
    private static Tls credentials;

    @BeforeAll
    static void certificates() throws IOException, CredentialsException {
        SecuredPractice practice = SecuredPractice.in(folder);
        root = practice.root();
        own = practice.own();
        credentials = practice.credentials();
    }

    private static void assertEchoes(ApplicationEntity peer) throws IOException {
        AssociationRequest request =
                AssociationRequest.of(new AeTitle("VESTIBULE"), List.of(VerificationUser.proposal()));
        try (Association association = Association.open(request, peer.withTls(credentials), Deadlines.DEFAULT)) {
            assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
        }
    }

    @Test
    @DisplayName("DCMTK's receiver, which wants a certificate of ours")
    void receiver() throws IOException {
        try (SecuredReceiver receiver = SecuredReceiver.start(folder, own, root.certificate())) {
            ApplicationEntity peer = new ApplicationEntity(ARCHIVE, "127.0.0.1", receiver.port());
            assertEchoes(peer);
            DicomFile photograph = photograph("to-dcmtk");
            assertStores(peer, photograph);
            assertSamePicture(receiver.onlyFile(), photograph);
        }
    }

    @Test
    @DisplayName("DCMTK's sender calls us, with its certificate")
    void sender() throws IOException {
        Tool echoscu = Tool.named("echoscu");
        ServiceProvider services = new ServiceProvider(List.of(new VerificationProvider()));
        try (AssociationListener listener = services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                AcceptorSettings.of(ARCHIVE, List.of()).withTls(credentials))) {
            Tool.Said said = echoscu.run(
                    "+tls",
                    own.key().toString(),
                    own.certificate().toString(),
                    "+cf",
                    root.certificate().toString(),
                    "-aec",
                    "ARCHIVE",
                    "127.0.0.1",
                    Integer.toString(listener.address().getPort()));
            assertThat(said.exit()).as(said.all()).isZero();
        }
    }

    @Test
    @DisplayName("Orthanc")
    void orthanc() throws IOException {
        try (OrthancProcess orthanc = OrthancProcess.startSecured(own.certificate(), own.key(), root.certificate())) {
            ApplicationEntity archive = new ApplicationEntity(ARCHIVE, "127.0.0.1", orthanc.port());
            assertEchoes(archive);
            DicomFile photograph = photograph("to-orthanc");
            assertStores(archive, photograph);
            Path back = orthanc.fetch(instance(photograph), Files.createDirectories(folder.resolve("from-orthanc")));
            assertSamePicture(back, photograph);
        }
    }

    @Test
    @DisplayName("our own receiver, where the bytes arrive as they were sent")
    void ourselves() throws IOException {
        Path arriving = Files.createDirectories(folder.resolve("arriving"));
        Path kept = folder.resolve("kept.dcm");
        StorageProvider storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                arriving,
                1 << 30,
                received -> {
                    Files.move(received.file(), kept);
                    return Status.SUCCESS;
                });
        try (AssociationListener listener = new ServiceProvider(List.of(storage))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(ARCHIVE, List.of()).withTls(credentials))) {
            DicomFile photograph = photograph("to-ourselves");
            assertStores(
                    new ApplicationEntity(
                            ARCHIVE, "127.0.0.1", listener.address().getPort()),
                    photograph);
            assertThat(DicomFile.read(kept).encodedDataSet().bytes(1 << 24))
                    .isEqualTo(photograph.encodedDataSet().bytes(1 << 24));
        }
    }

    /** Many PDUs long, so that records and PDUs begin and end at different places. */
    private static DicomFile photograph(String name) throws IOException {
        Random random = new Random(name.hashCode());
        byte[] noise = new byte[3_000_000];
        random.nextBytes(noise);
        DataSet dataSet = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.20260106")
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.202601061")
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.PATIENT_NAME, "Wintergreen^Otto")
                .put(Attributes.PATIENT_ID, "P-1")
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(noise)))))
                .build();
        Path file = folder.resolve(name + ".dcm");
        DicomFile.write(file, dataSet, TransferSyntax.JPEG_BASELINE);
        return DicomFile.read(file);
    }

    private static String instance(DicomFile file) {
        return file.sopInstance().orElseThrow().value();
    }

    private static void assertStores(ApplicationEntity peer, DicomFile photograph) throws IOException {
        AssociationRequest request =
                AssociationRequest.of(new AeTitle("VESTIBULE"), StorageUser.proposals(List.of(photograph)));
        try (Association association = Association.open(request, peer.withTls(credentials), Deadlines.DEFAULT)) {
            assertThat(new StorageUser(association).store(photograph)).isEqualTo(new StoreOutcome.Stored(0));
        }
    }

    private static void assertSamePicture(Path stored, DicomFile photograph) throws IOException {
        assertThat(picture(DicomFile.read(stored))).isEqualTo(picture(photograph));
    }

    private static byte[] picture(DicomFile file) throws IOException {
        Value value = file.dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
        return ((Value.Fragments) value).fragments().get(0).bytes(1 << 24);
    }
}
