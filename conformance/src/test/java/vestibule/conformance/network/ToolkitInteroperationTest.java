package vestibule.conformance.network;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.JavaToolkit;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;
import vestibule.dicom.service.VerificationUser;

@DisplayName("Against a toolkit in Java (libpixelmed-java): verification and storage, both roles")
@Timeout(180)
class ToolkitInteroperationTest {

    @TempDir
    private Path folder;

    private Receiving receiving;

    @BeforeEach
    void start() throws IOException {
        receiving = new Receiving(folder);
    }

    @AfterEach
    void stop() {
        receiving.close();
    }

    private static Association open(JavaToolkit.Receiver receiver, List<ProposedContext> contexts) throws IOException {
        return Association.open(
                AssociationRequest.of(Receiving.TITLE, contexts),
                new ApplicationEntity(new AeTitle(receiver.title()), "127.0.0.1", receiver.port()),
                Deadlines.DEFAULT);
    }

    @Test
    @DisplayName(
            "it answers our echo and keeps what we send uncompressed, byte for byte; it does not take JPEG, and we say so")
    void asProvider() throws IOException {
        DicomFile compressed = NetworkPhotographs.write(folder, 1).get(0);
        List<DicomFile> photographs = NetworkPhotographs.write(folder, 2, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        Path kept = Files.createDirectories(folder.resolve("kept"));
        try (JavaToolkit.Receiver receiver = JavaToolkit.receive(kept)) {
            try (Association association = open(receiver, List.of(VerificationUser.proposal()))) {
                assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
            }
            try (Association association = open(receiver, StorageUser.proposals(List.of(compressed)))) {
                assertThat(new StorageUser(association).store(compressed))
                        .isInstanceOfSatisfying(
                                StoreOutcome.NotSent.class,
                                outcome -> assertThat(outcome.reason())
                                        .contains("switch the transfer syntax on at the peer"));
            }
            try (Association association = open(receiver, StorageUser.proposals(photographs))) {
                for (DicomFile photograph : photographs) {
                    assertThat(new StorageUser(association).store(photograph)).isEqualTo(new StoreOutcome.Stored(0));
                }
            }
        }
        try (Stream<Path> files = Files.walk(kept)) {
            List<byte[]> pictures = files.filter(Files::isRegularFile)
                    .map(ToolkitInteroperationTest::picture)
                    .toList();
            assertThat(pictures).hasSize(2);
            for (DicomFile photograph : photographs) {
                byte[] sent = NetworkPhotographs.picture(photograph);
                assertThat(pictures).anyMatch(picture -> Arrays.equals(picture, sent));
            }
        }
    }

    private static byte[] picture(Path file) {
        try {
            return NetworkPhotographs.picture(DicomFile.read(file));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    @DisplayName("we answer its echo")
    void echoAnswered() throws IOException {
        Tool.Said said = JavaToolkit.echo(receiving.port(), Receiving.TITLE.value());
        assertThat(said.all()).contains("was successful");
    }

    @Test
    @DisplayName("we keep what it sends, byte for byte")
    void stored() throws IOException {
        DicomFile photograph = NetworkPhotographs.write(folder, 1).get(0);
        JavaToolkit.store(receiving.port(), Receiving.TITLE.value(), photograph.path());
        assertThat(receiving.instances())
                .containsExactly(photograph.sopInstance().orElseThrow());
        assertThat(receiving.pictures().get(0)).isEqualTo(NetworkPhotographs.picture(photograph));
    }
}
