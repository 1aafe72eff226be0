package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException.Rejected;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.Rejection;
import vestibule.dicom.net.Tool;

@DisplayName("Against DCMTK: verification, storage and query, both roles")
@Timeout(120)
class DcmtkTest extends DcmtkFixture {

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
}
