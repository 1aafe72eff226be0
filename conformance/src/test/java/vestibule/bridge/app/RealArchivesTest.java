package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.outbox.PhotoState;
import vestibule.conformance.fault.CrashHarness.Run;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.peer.DcmtkReceiver;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.dicom.io.DicomFile;

@DisplayName("From a card into archives that nobody here wrote, by the program as it is delivered")
@Timeout(300)
class RealArchivesTest {

    private static final int PHOTOS = 6;
    private static final int OBJECTS = Mixture.objects(0, PHOTOS);
    private static final Duration PATIENCE = Duration.ofMinutes(1);

    @TempDir
    Path folder;

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    @Test
    @DisplayName("Orthanc: it calls our listener to commit, and the card may be cleared")
    void orthanc() throws Exception {
        int port = freePort();
        try (OrthancProcess orthanc = OrthancProcess.start("Utf8", "VESTIBULE", port)) {
            RealRun real = RealRun.in(folder, orthanc.url())
                    .with("listener", "port = " + port)
                    .with("archive", "proof = \"commitment\"");
            real.photographs(PHOTOS);
            real.finish();
            assertThat(real.counts()).isEqualTo(Map.of(PhotoState.COMMITTED, PHOTOS));
            assertThat(status(real)).contains("may be cleared: all 6 photographs are committed (proof: commitment)");
            real.judge("Orthanc", held(fetched(orthanc)), PhotoState.COMMITTED);
        }
    }

    @Test
    @DisplayName("Orthanc calls by a title that is not listed: its report is not taken; once it is listed, it is")
    void strangersReport() throws Exception {
        int port = freePort();
        try (OrthancProcess orthanc = OrthancProcess.start("Utf8", "VESTIBULE", port)) {
            RealRun real = RealRun.in(folder, orthanc.url())
                    .with("listener", "port = " + port)
                    .with("archive", "proof = \"commitment\"");
            real.with("listener", "callers = [\"SOMEBODY\"]").photographs(PHOTOS);
            try (Run run = real.serve()) {
                assertThat(run.await(line -> line.contains("calling AE title not recognized"), PATIENCE))
                        .as("%s", run.lines())
                        .isTrue();
                assertThat(run.askToEnd()).isTrue();
                assertThat(run.awaitExit(PATIENCE)).isPresent();
            }
            assertThat(real.counts()).isEqualTo(Map.of(PhotoState.SENT, PHOTOS));
            real.without("listener", "callers").finish();
            assertThat(real.counts()).isEqualTo(Map.of(PhotoState.COMMITTED, PHOTOS));
        }
    }

    @Test
    @DisplayName("Orthanc cannot reach us: sent, not committed, and the card must not be cleared")
    void nobodyListens() throws Exception {
        try (OrthancProcess orthanc = OrthancProcess.start("Utf8", "VESTIBULE", freePort())) {
            RealRun real = RealRun.in(folder, orthanc.url());
            real.photographs(PHOTOS);
            try (Run run = real.serve()) {
                assertThat(run.await(
                                line -> line.contains("commitment of %d objects asked for: Done".formatted(OBJECTS)),
                                PATIENCE))
                        .as("%s", run.lines())
                        .isTrue();
                assertThat(run.askToEnd()).isTrue();
                assertThat(run.awaitExit(PATIENCE)).isPresent();
            }
            assertThat(real.counts()).isEqualTo(Map.of(PhotoState.SENT, PHOTOS));
            assertThat(status(real)).contains("must not be cleared: 6 of 6 photographs: sent");
        }
    }

    @Test
    @DisplayName(
            "Orthanc, as if it committed to nothing: everything is fetched back and compared, and the verdict says so")
    void readBack() throws Exception {
        try (OrthancProcess orthanc = OrthancProcess.start("Utf8", "VESTIBULE", freePort())) {
            RealRun real = RealRun.in(folder, orthanc.url()).with("archive", "proof = \"read-back\"");
            real.photographs(PHOTOS);
            real.finish();
            assertThat(status(real)).contains("may be cleared: all 6 photographs are committed (proof: read-back)");
            real.judge("read back", held(fetched(orthanc)), PhotoState.COMMITTED);
        }
    }

    private List<Path> fetched(OrthancProcess orthanc) throws IOException {
        List<Path> fetched = new ArrayList<>();
        for (String instance : orthanc.instances()) {
            fetched.add(orthanc.fetch(instance, Files.createTempDirectory(folder, "fetched")));
        }
        return fetched;
    }

    @Test
    @DisplayName("DCMTK's receiver only stores: sent, with a note why that is all, each photograph once and unchanged")
    void receiver() throws Exception {
        try (DcmtkReceiver receiver = DcmtkReceiver.start(folder)) {
            RealRun real = RealRun.in(folder, receiver.url());
            real.photographs(PHOTOS);
            try (Run run = real.serve()) {
                assertThat(run.await(line -> storeAnswers(run) == OBJECTS, PATIENCE))
                        .as("%s", run.lines())
                        .isTrue();
                // Commitment is asked for after the last answer; what came of that is what is waited for
                Instant end = Instant.now().plus(PATIENCE);
                while (!status(real).contains("offers no storage commitment")
                        && Instant.now().isBefore(end)) {
                    assertThat(run.awaitExit(Duration.ofMillis(200))).isEmpty();
                }
                assertThat(run.askToEnd()).isTrue();
                assertThat(run.awaitExit(PATIENCE)).isPresent();
            }
            assertThat(real.counts()).isEqualTo(Map.of(PhotoState.SENT, PHOTOS));
            assertThat(status(real)).contains("must not be cleared").contains("offers no storage commitment");
            real.judge("storescp", held(receiver.received().values()), PhotoState.SENT);
        }
    }

    private static long storeAnswers(Run run) {
        return run.lines().stream()
                .filter(line -> line.contains("received C_STORE_RSP"))
                .count();
    }

    private static String status(RealRun real) throws Exception {
        try (Run status = real.ended("status")) {
            return String.join("\n", status.lines());
        }
    }

    /** What lies in these files, as the judge of all proofs looks at it. */
    private static List<HeldObject> held(Collection<Path> files) throws IOException {
        List<HeldObject> held = new ArrayList<>();
        for (Path path : files) {
            DicomFile file = DicomFile.read(path);
            try (InputStream bytes = file.encodedDataSet().open()) {
                held.add(HeldObject.of(
                        file.sopClass().orElseThrow(),
                        file.sopInstance().orElseThrow(),
                        bytes.readAllBytes(),
                        file.transferSyntax()));
            }
        }
        return held;
    }
}
