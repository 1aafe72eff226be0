package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.net.AeTitle;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("send, probe and patients against the embedded archive")
class ArchiveCommandsTest {

    @TempDir
    Path folder;

    private EmbeddedArchive archive;

    @BeforeEach
    void start() throws IOException {
        archive = start(0);
    }

    private EmbeddedArchive start(int port) throws IOException {
        return EmbeddedArchive.start(
                folder.resolve("archive"),
                new InetSocketAddress(InetAddress.getLoopbackAddress(), port),
                new AeTitle("ARCHIVE"));
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private String url() {
        return "dicom://127.0.0.1:%d/ARCHIVE".formatted(archive.port());
    }

    private Path wrapped(String id, String view, String... more) throws IOException {
        Path photo = folder.resolve(id + ".jpg");
        Files.write(photo, Samples.jpeg(Samples.photo(id), PhotoSize.THUMBNAIL));
        Path object = Files.createDirectories(folder.resolve("objects")).resolve(id + ".dcm");
        Ran ran = Ran.vestibule(Stream.concat(
                        Stream.of(
                                "wrap",
                                photo.toString(),
                                "--out",
                                object.toString(),
                                "--view",
                                view,
                                "--patient-id",
                                "PG-0001",
                                "--patient-name",
                                "Exempel^Zoë^Åsa"),
                        Stream.of(more))
                .toArray(String[]::new));
        assertThat(ran.exit()).as(ran.err()).isZero();
        return object;
    }

    @Test
    @DisplayName("send stores every file of a folder, and patients finds them with view, side and teeth")
    void sendAndFind() throws IOException {
        wrapped("zoe-teeth-front-occlusion", "teeth-front-occlusion");
        wrapped("zoe-teeth-buccal-right-direct", "teeth-buccal-right-direct", "--teeth", "14,15,16");
        Ran sent = Ran.vestibule("send", folder.resolve("objects").toString(), "--to", url());
        assertThat(sent.err()).isEmpty();
        assertThat(sent.exit()).isZero();
        assertThat(sent.out()).endsWith("2 of 2 stored" + System.lineSeparator());

        Ran patients = Ran.vestibule("patients", "--to", url());
        assertThat(patients.out()).contains("Exempel^Zoë^Åsa").contains("PG-0001");
        Ran photographs = Ran.vestibule("patients", "--to", url(), "--photographs", "--patient-id", "PG-0001");
        assertThat(photographs.exit()).isZero();
        assertThat(photographs.out().lines()).hasSize(3);
        assertThat(photographs.out())
                .contains("Buccal right, in occlusion  R")
                .contains("14 (upper right), 15 (upper right), 16 (upper right)")
                .contains("in the archive");
        Ran nobody = Ran.vestibule("patients", "--to", url(), "--photographs", "--patient-id", "NOBODY");
        assertThat(nobody.out()).isEmpty();
        assertThat(nobody.exit()).isZero();
        assertThat(nobody.err())
                .isEqualTo("vestibule patients: no photograph found in the archive that matches.%n".formatted());
        Ran nobodyAtAll = Ran.vestibule("patients", "--to", url(), "--patient-id", "NOBODY");
        assertThat(nobodyAtAll.exit()).isZero();
        assertThat(nobodyAtAll.out()).isEmpty();
        assertThat(nobodyAtAll.err())
                .isEqualTo("vestibule patients: no patient found in the archive that matches.%n".formatted());
    }

    @Test
    @DisplayName("what was stored is there after the archive starts again, byte for byte")
    void storedObjectsLast() throws IOException {
        Path object = wrapped("zoe-teeth-front-occlusion", "teeth-front-occlusion");
        Ran.vestibule("send", object.toString(), "--to", url());
        archive.close();
        archive = start(0);
        Ran photographs = Ran.vestibule("patients", "--to", url(), "--photographs", "--json");
        assertThat(photographs.out()).contains("\"view\":\"Teeth front, in occlusion\"");
        try (Stream<Path> kept = Files.list(folder.resolve("archive"))) {
            Path file = kept.filter(Files::isRegularFile).findFirst().orElseThrow();
            vestibule.dicom.io.DicomFile stored = vestibule.dicom.io.DicomFile.read(file);
            vestibule.dicom.io.DicomFile sent = vestibule.dicom.io.DicomFile.read(object);
            assertThat(stored.encodedDataSet().bytes(1 << 24))
                    .isEqualTo(sent.encodedDataSet().bytes(1 << 24));
        }
    }

    @Test
    @DisplayName("sending the same object again is success, and there is still one")
    void sendingTwice() throws IOException {
        Path object = wrapped("zoe-teeth-front-occlusion", "teeth-front-occlusion");
        Ran.vestibule("send", object.toString(), "--to", url());
        assertThat(Ran.vestibule("send", object.toString(), "--to", url()).exit())
                .isZero();
        try (Stream<Path> kept = Files.list(folder.resolve("archive"))) {
            assertThat(kept.filter(Files::isRegularFile)).hasSize(1);
        }
    }

    @Test
    @DisplayName("send says of each file that is no object why it stays behind, and sends the others")
    void sendMixedFolder() throws IOException {
        wrapped("zoe-teeth-front-occlusion", "teeth-front-occlusion");
        Files.writeString(folder.resolve("objects").resolve("notes.txt"), "shopping: eggs, bread, butter");
        Ran sent = Ran.vestibule("send", folder.resolve("objects").toString(), "--to", url());
        assertThat(sent.exit()).isEqualTo(65);
        assertThat(sent.err()).contains("notes.txt: not sent");
        assertThat(sent.out()).contains("1 of 2 stored");
    }

    @Test
    @DisplayName("send of an empty folder is not taken for a success")
    void sendNothing() throws IOException {
        Ran sent = Ran.vestibule(
                "send", Files.createDirectories(folder.resolve("empty")).toString(), "--to", url());
        assertThat(sent.exit()).isEqualTo(65);
        assertThat(sent.err()).contains("nothing was sent");
    }

    @Test
    @DisplayName("probe passes each step of a good link")
    void probeGoodLink() {
        Ran ran = Ran.vestibule("probe", "--to", url());
        assertThat(ran.exit()).isZero();
        assertThat(ran.out())
                .contains("photographs                  passed      VL Photographic Image Storage in JPEG Baseline")
                .contains("query                        passed")
                .contains("worklist                     not offered no Modality Worklist here;")
                .endsWith("Photographs can be sent to %s.%n".formatted(url()));
    }

    @Test
    @DisplayName("probe names the title that is wrong")
    void probeWrongTitle() {
        Ran ran = Ran.vestibule("probe", "--to", url().replace("ARCHIVE", "OTHER"));
        assertThat(ran.exit()).isEqualTo(69);
        assertThat(ran.out())
                .containsPattern("association +failed")
                .contains("called AE title")
                .containsPattern("echo +not asked");
    }

    @Test
    @DisplayName("probe and send say that nothing listens")
    void nothingListens() throws IOException {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        String nowhere = "dicom://127.0.0.1:%d/ARCHIVE".formatted(port);
        assertThat(Ran.vestibule("probe", "--to", nowhere).exit()).isEqualTo(69);
        Path object = wrapped("zoe-teeth-front-occlusion", "teeth-front-occlusion");
        Ran sent = Ran.vestibule("send", object.toString(), "--to", nowhere);
        assertThat(sent.exit()).isEqualTo(69);
        assertThat(sent.err()).contains("the rest was not sent");
        assertThat(sent.err().strip().lines()).hasSize(1);
    }
}
