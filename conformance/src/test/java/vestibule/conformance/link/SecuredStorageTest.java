package vestibule.conformance.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.app.Main;
import vestibule.bridge.app.Terminal;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.conformance.peer.SecuredReceiver;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.Value;
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
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;
import vestibule.samples.certificate.Authority;

@DisplayName(
        "Photographs over TLS, certificates on both sides, each picture byte for byte the same at the far end (PS3.15 B.12)")
@Timeout(180)
class SecuredStorageTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");

    @TempDir
    static Path folder;

    private static Authority root;
    private static Authority.Pair own;
    private static Tls credentials;
    private static Path settings;
    private static final List<DicomFile> PHOTOGRAPHS = new ArrayList<>();

    @BeforeAll
    static void photographs() throws Exception {
        SecuredPractice practice = SecuredPractice.in(folder);
        root = practice.root();
        own = practice.own();
        credentials = practice.credentials();
        settings = Files.writeString(
                folder.resolve("practice.toml"),
                "[tls]\ntrust = 'root.pem'\ncertificate = 'own.pem'\nkey = 'own.key'\n");
        wrap("teeth-front-occlusion", PhotoSize.THUMBNAIL);
        wrap("face-front-smile", PhotoSize.parse("2400x1600"));
    }

    private static void wrap(String view, PhotoSize size) throws IOException {
        Path photo = Files.write(
                folder.resolve(view + ".jpg"), Samples.jpeg(Samples.photos().get(PHOTOGRAPHS.size()), size));
        Path object = folder.resolve(view + ".dcm");
        assertRuns(
                "wrap",
                photo.toString(),
                "--out",
                object.toString(),
                "--view",
                view,
                "--patient-id",
                "PG-0001",
                "--patient-name",
                "Exempel^Zoë");
        PHOTOGRAPHS.add(DicomFile.read(object));
    }

    private static void assertRuns(String... words) {
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int exit = Main.run(
                words,
                new Terminal(
                        new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8)));
        assertThat(exit).as(err.toString(StandardCharsets.UTF_8)).isZero();
    }

    private static byte[] picture(DicomFile file) throws IOException {
        Value value = file.dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
        return ((Value.Fragments) value).fragments().get(0).bytes(1 << 26);
    }

    private static void assertArrived(List<byte[]> pictures) throws IOException {
        List<byte[]> sent = new ArrayList<>();
        for (DicomFile photograph : PHOTOGRAPHS) {
            sent.add(picture(photograph));
        }
        assertThat(sent).hasSize(2);
        assertThat(pictures).containsExactlyInAnyOrderElementsOf(sent);
    }

    private static void assertStored(int port) throws IOException {
        AssociationRequest request =
                AssociationRequest.of(new AeTitle("VESTIBULE"), StorageUser.proposals(PHOTOGRAPHS));
        ApplicationEntity peer = new ApplicationEntity(ARCHIVE, "127.0.0.1", port).withTls(credentials);
        try (Association association = Association.open(request, peer, Deadlines.DEFAULT)) {
            for (DicomFile photograph : PHOTOGRAPHS) {
                assertThat(new StorageUser(association).store(photograph)).isEqualTo(new StoreOutcome.Stored(0));
            }
        }
    }

    private static List<byte[]> picturesIn(List<Path> files) throws IOException {
        List<byte[]> pictures = new ArrayList<>();
        for (Path file : files) {
            pictures.add(picture(DicomFile.read(file)));
        }
        return pictures;
    }

    @Test
    @DisplayName("from us to DCMTK's receiver")
    void receiver() throws IOException {
        try (SecuredReceiver receiver = SecuredReceiver.start(folder, own, root.certificate())) {
            assertStored(receiver.port());
            assertArrived(picturesIn(receiver.received()));
        }
    }

    @Test
    @DisplayName("from DCMTK's sender to us")
    void sender() throws IOException {
        Tool storescu = Tool.named("storescu");
        List<byte[]> arrived = new CopyOnWriteArrayList<>();
        StorageProvider storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                Files.createDirectories(folder.resolve("arriving")),
                1 << 30,
                received -> {
                    arrived.add(picture(DicomFile.read(received.file())));
                    return Status.SUCCESS;
                });
        try (AssociationListener listener = new ServiceProvider(List.of(storage))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(ARCHIVE, List.of()).withTls(credentials))) {
            List<String> words = new ArrayList<>(List.of(
                    "-xy",
                    "+tls",
                    own.key().toString(),
                    own.certificate().toString(),
                    "+cf",
                    root.certificate().toString(),
                    "-aec",
                    "ARCHIVE",
                    "127.0.0.1",
                    Integer.toString(listener.address().getPort())));
            PHOTOGRAPHS.forEach(photograph -> words.add(photograph.path().toString()));
            Tool.Said said = storescu.run(words);
            assertThat(said.exit()).as(said.all()).isZero();
        }
        assertArrived(arrived);
    }

    @Test
    @DisplayName("from us to Orthanc")
    void orthanc() throws IOException {
        try (OrthancProcess orthanc = OrthancProcess.startSecured(own.certificate(), own.key(), root.certificate())) {
            assertStored(orthanc.port());
            List<Path> kept = new ArrayList<>();
            for (DicomFile photograph : PHOTOGRAPHS) {
                String instance = photograph.sopInstance().orElseThrow().value();
                kept.add(orthanc.fetch(instance, Files.createDirectories(folder.resolve("fetched-" + kept.size()))));
            }
            assertArrived(picturesIn(kept));
        }
    }

    @Test
    @DisplayName("by vestibule send to our own archive, called as dicoms://")
    void send() throws Exception {
        Path kept = folder.resolve("kept");
        try (EmbeddedArchive archive = EmbeddedArchive.start(
                kept,
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                ARCHIVE,
                Optional.of(credentials.forServer()))) {
            List<String> words = new ArrayList<>(List.of(
                    "send",
                    "--to",
                    "dicoms://127.0.0.1:%d/ARCHIVE".formatted(archive.port()),
                    "--config",
                    settings.toString()));
            PHOTOGRAPHS.forEach(photograph -> words.add(photograph.path().toString()));
            assertRuns(words.toArray(String[]::new));
        }
        try (Stream<Path> all = Files.walk(kept)) {
            assertArrived(picturesIn(
                    all.filter(path -> path.toString().endsWith(".dcm")).toList()));
        }
    }
}
