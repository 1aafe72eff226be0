package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException.Rejected;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.Rejection;
import vestibule.dicom.net.Tool;

@DisplayName("Against DCMTK, both roles")
@Timeout(120)
class DcmtkTest {

    private static final Duration LONG = Duration.ofSeconds(20);

    @TempDir
    private Path folder;

    private Path objects;
    private Path received;
    private final List<AutoCloseable> opened = new ArrayList<>();

    @BeforeEach
    void folders() throws IOException {
        objects = Files.createDirectories(folder.resolve("objects"));
        received = Files.createDirectories(folder.resolve("received"));
    }

    @AfterEach
    void close() throws Exception {
        for (int i = opened.size() - 1; i >= 0; i--) {
            opened.get(i).close();
        }
    }

    private <T extends AutoCloseable> T closedLater(T resource) {
        opened.add(resource);
        return resource;
    }

    private String listening(ProvidedService... services) throws IOException {
        AssociationListener listener = closedLater(new ServiceProvider(List.of(services))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(new AeTitle("ARCHIVE"), List.of())));
        return String.valueOf(listener.address().getPort());
    }

    private Association associate(int port, String called, List<ProposedContext> contexts) throws IOException {
        return closedLater(Association.open(
                AssociationRequest.of(new AeTitle("VESTIBULE"), contexts),
                new ApplicationEntity(new AeTitle(called), "127.0.0.1", port),
                Deadlines.DEFAULT));
    }

    @Test
    @DisplayName("echoscu is answered")
    void echoscu() throws IOException {
        String port = listening(new VerificationProvider());
        Tool.run(folder, "echoscu", "-v", "-aec", "ARCHIVE", "127.0.0.1", port).succeeded();
        assertThat(Tool.run(folder, "echoscu", "-v", "-aec", "OTHER", "127.0.0.1", port)
                        .output())
                .contains("Called AE Title Not Recognized");
    }

    @ParameterizedTest(name = "with PDUs of {0}")
    @DisplayName("storescu's objects arrive byte for byte")
    @ValueSource(strings = {"4096", "16384", "131072"})
    void storescu(String pduLength) throws IOException {
        DicomFile photo = Objects.photo(objects, 3_000_001, 1);
        Path kept = folder.resolve("kept.dcm");
        String port = listening(
                new VerificationProvider(),
                new StorageProvider(
                        List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                        List.of(Uids.JPEG_BASELINE8_BIT),
                        received,
                        1 << 30,
                        object -> {
                            Files.move(object.file(), kept, StandardCopyOption.REPLACE_EXISTING);
                            return Status.SUCCESS;
                        }));
        Tool.run(
                        folder,
                        "storescu",
                        "-v",
                        "-xy",
                        "--max-send-pdu",
                        pduLength,
                        "-aec",
                        "ARCHIVE",
                        "127.0.0.1",
                        port,
                        photo.path().toString())
                .succeeded();
        DicomFile read = DicomFile.read(kept);
        assertThat(Objects.pixels(read.dataSet().find(Attributes.PIXEL_DATA).orElseThrow()))
                .isEqualTo(Objects.pixels(
                        photo.dataSet().find(Attributes.PIXEL_DATA).orElseThrow()));
        assertThat(read.sopInstance()).isEqualTo(photo.sopInstance());
    }

    @Test
    @DisplayName("findscu gets our matches")
    void findscu() throws IOException {
        List<DataSet> asked = new CopyOnWriteArrayList<>();
        String port = listening(new QueryProvider(QueryLevel.Model.STUDY_ROOT.find(), (identifier, calling) -> {
            asked.add(identifier);
            return new QueryProvider.Answer(
                    Stream.of("A^One", "B^Two")
                            .map(name -> DataSet.builder()
                                    .put(Attributes.PATIENT_NAME, name)
                                    .put(Attributes.QUERY_RETRIEVE_LEVEL, "STUDY")
                                    .build()),
                    true);
        }));
        String output = Tool.run(
                        folder,
                        "findscu",
                        "-v",
                        "-S",
                        "-aec",
                        "ARCHIVE",
                        "-k",
                        "QueryRetrieveLevel=STUDY",
                        "-k",
                        "PatientName=*",
                        "127.0.0.1",
                        port)
                .succeeded()
                .output();
        assertThat(output).contains("A^One").contains("B^Two");
        assertThat(asked.get(0).text(Attributes.PATIENT_NAME)).contains("*");
    }

    private int startStorescp(String... options) throws IOException {
        int port = Tool.freePort();
        List<String> command =
                new ArrayList<>(List.of("storescp", "-v", "+B", "+uf", "-od", received.toString(), "-aet", "STORESCP"));
        command.addAll(List.of(options));
        command.add(String.valueOf(port));
        closedLater(Tool.serve(folder, port, Map.of(), command.toArray(String[]::new)));
        return port;
    }

    @Test
    @DisplayName("storescp stores our objects byte for byte, several on one association")
    void storescp() throws IOException {
        int port = startStorescp("+xa", "--max-pdu", "131072");
        List<DicomFile> photos = List.of(
                Objects.photo(objects, 10, 1),
                Objects.photo(objects, 1_000_000, 2),
                Objects.photo(objects, 200_001, 3));
        List<ProposedContext> contexts = new ArrayList<>(StorageUser.proposals(photos));
        contexts.add(VerificationUser.proposal());
        assertThat(contexts).hasSize(2);
        Association association = associate(port, "STORESCP", contexts);
        assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
        for (DicomFile photo : photos) {
            assertThat(new StorageUser(association).store(photo)).isEqualTo(new StoreOutcome.Stored(0));
        }
        association.release();
        List<byte[]> sent = new ArrayList<>();
        for (DicomFile photo : photos) {
            sent.add(photo.encodedDataSet().bytes(1 << 30));
        }
        List<byte[]> arrived = new ArrayList<>();
        try (Stream<Path> files = Files.list(received)) {
            for (Path file : files.toList()) {
                arrived.add(DicomFile.read(file).encodedDataSet().bytes(1 << 30));
            }
        }
        assertThat(arrived).containsExactlyInAnyOrderElementsOf(sent);
    }

    @Test
    @DisplayName("what storescp does not accept is not sent, and the sentence says so")
    void storescpUncompressedOnly() throws IOException {
        int port = startStorescp();
        DicomFile photo = Objects.photo(objects, 100, 1);
        Association association = associate(port, "STORESCP", StorageUser.proposals(List.of(photo)));
        StoreOutcome.NotSent outcome = (StoreOutcome.NotSent) new StorageUser(association).store(photo);
        assertThat(outcome.reason()).contains("not in this transfer syntax");
        assertThat(outcome.accepted()).isEmpty();
    }

    @Test
    @DisplayName("storescp's refusal to associate is told in words")
    void refusal() throws IOException {
        int port = startStorescp("--refuse");
        assertThat(org.assertj.core.api.Assertions.catchThrowableOfType(
                                Rejected.class, () -> associate(port, "STORESCP", List.of(VerificationUser.proposal())))
                        .rejection()
                        .reason())
                .isEqualTo(Rejection.Reason.NO_REASON_GIVEN);
    }

    @Test
    @DisplayName("storescp's abort in the middle leaves the outcome unknown")
    void abort() throws IOException {
        int port = startStorescp("+xa", "--abort-during");
        DicomFile photo = Objects.photo(objects, 3_000_000, 1);
        Association association = associate(port, "STORESCP", StorageUser.proposals(List.of(photo)));
        assertThat(new StorageUser(association).store(photo)).isInstanceOf(StoreOutcome.Unknown.class);
    }

    private int startDcmqrscp() throws IOException {
        int port = Tool.freePort();
        Path store = Files.createDirectories(folder.resolve("store"));
        Path configuration = folder.resolve("dcmqrscp.cfg");
        Files.writeString(configuration, """
                MaxPDUSize = 16384
                MaxAssociations = 16
                HostTable BEGIN
                HostTable END
                VendorTable BEGIN
                VendorTable END
                AETable BEGIN
                QRSCP %s RW (200, 1024mb) ANY
                AETable END
                """.formatted(store));
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
        int port = startDcmqrscp();
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
}
