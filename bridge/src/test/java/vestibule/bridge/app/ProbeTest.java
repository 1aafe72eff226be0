package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.bridge.probe.Probe;
import vestibule.bridge.probe.Step;
import vestibule.bridge.probe.Wishes;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.net.tls.TlsFiles;
import vestibule.dicom.service.CommitmentProvider;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.CommitmentReporter;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.VerificationProvider;
import vestibule.samples.certificate.Authority;
import vestibule.validator.Validator;

@DisplayName("vestibule probe")
@Timeout(120)
class ProbeTest {

    private static final long SEED = 20_261_125L;
    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final Duration AMPLE = Duration.ofSeconds(20);

    @TempDir
    Path folder;

    private static Destination at(int port) throws DestinationException {
        return Destination.parse("dicom://127.0.0.1:%d/ARCHIVE".formatted(port));
    }

    private static Probe.Report probed(Destination archive, Wishes wishes) {
        return new Probe(archive, "VESTIBULE", wishes, Clock.systemUTC(), new Random(SEED)).run();
    }

    private static Step step(Probe.Report report, Step.Part part) {
        return report.steps().stream()
                .filter(step -> step.part() == part)
                .findFirst()
                .orElseThrow();
    }

    private static void assertStep(Probe.Report report, Step.Part part, Step.Result result, String... words) {
        for (String each : words) {
            assertThat(step(report, part).sentence()).contains(each);
        }
        assertThat(step(report, part).result()).isEqualTo(result);
    }

    /** An archive that commits to everything, or knows nothing; it answers at once, or calls back under some title. */
    private static AssociationListener committing(boolean promises, Optional<Integer> back, String callingBackAs)
            throws IOException {
        CommitmentProvider commitment = new CommitmentProvider((request, calling) -> {
            CommitmentReport report = promises
                    ? new CommitmentReport(request.transaction(), request.objects(), List.of())
                    : new CommitmentReport(
                            request.transaction(),
                            List.of(),
                            request.objects().stream()
                                    .map(object -> new CommitmentReport.Failure(object, 0x0112))
                                    .toList());
            back.ifPresent(port -> new Thread(
                            () -> new CommitmentReporter(new AeTitle(callingBackAs), Deadlines.DEFAULT)
                                    .deliver(report, new ApplicationEntity(calling, "127.0.0.1", port)))
                    .start());
            return back.isPresent() ? Optional.empty() : Optional.of(report);
        });
        return new ServiceProvider(List.of(new VerificationProvider(), commitment))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(ARCHIVE, List.of()));
    }

    private static Wishes listening(int port) {
        return Wishes.USUAL
                .within(Duration.ofSeconds(60), AMPLE, AMPLE)
                .withListener(new Wishes.Listener(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), port),
                        Set.of(ARCHIVE),
                        Optional.empty()));
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    @Test
    @DisplayName("sees a report on our own association, and what it must not promise")
    void sameAssociation() throws Exception {
        try (AssociationListener honest = committing(false, Optional.empty(), "")) {
            Probe.Report report = probed(at(honest.address().getPort()), Wishes.USUAL);
            assertStep(report, Step.Part.COMMITMENT, Step.Result.PASSED);
            assertStep(report, Step.Part.WAY_BACK, Step.Result.PASSED, "on our own association", "is not there");
            assertStep(report, Step.Part.PHOTOGRAPHS, Step.Result.FAILED, "does not take this SOP class");
            assertThat(report.usable()).isFalse();
        }
        try (AssociationListener boastful = committing(true, Optional.empty(), "")) {
            Probe.Report report = probed(at(boastful.address().getPort()), Wishes.USUAL);
            assertStep(
                    report, Step.Part.WAY_BACK, Step.Result.FAILED, "promises to keep an object that does not exist");
        }
    }

    @Test
    @DisplayName("sees a report on an association that the archive opens, and who was turned away there")
    void otherAssociation() throws Exception {
        int back = freePort();
        try (AssociationListener archive = committing(false, Optional.of(back), "ARCHIVE")) {
            Probe.Report report = probed(at(archive.address().getPort()), listening(back));
            assertStep(report, Step.Part.WAY_BACK, Step.Result.PASSED, "to our port " + back);
        }
        try (AssociationListener archive = committing(false, Optional.of(back), "STRANGER")) {
            Wishes wishes = listening(back).within(AMPLE, AMPLE, Duration.ofSeconds(3));
            Probe.Report report = probed(at(archive.address().getPort()), wishes);
            assertStep(
                    report,
                    Step.Part.WAY_BACK,
                    Step.Result.FAILED,
                    "called as “STRANGER”",
                    "calling AE title not recognized",
                    "listener.callers");
        }
    }

    @Test
    @DisplayName("says what to set where no report came and nobody listens, and that a port is taken")
    void noWayBack() throws Exception {
        try (AssociationListener archive = committing(false, Optional.of(freePort()), "ARCHIVE");
                ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Wishes brief = Wishes.USUAL.within(AMPLE, AMPLE, Duration.ofMillis(300));
            Destination destination = at(archive.address().getPort());
            assertStep(probed(destination, brief), Step.Part.WAY_BACK, Step.Result.NOT_ASKED, "listener.port");
            Wishes busy = listening(taken.getLocalPort()).within(AMPLE, AMPLE, Duration.ofMillis(300));
            assertStep(probed(destination, busy), Step.Part.WAY_BACK, Step.Result.FAILED, "another program");
        }
    }

    @Test
    @DisplayName(
            "stores a test object that is marked everywhere, only when asked, and the validator has no error to tell")
    void testObject() throws Exception {
        Path store = folder.resolve("archive");
        try (EmbeddedArchive archive =
                EmbeddedArchive.start(store, new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), ARCHIVE)) {
            String url = at(archive.port()).toString();
            assertThat(Ran.vestibule("probe", "--to", url).exit()).isZero();
            assertThat(files(store)).isEmpty();
            Ran ran = Ran.vestibule("probe", "--to", url, "--with-test-object", "--json");
            assertThat(ran.exit()).as(ran.out()).isZero();
            assertThat(ran.out())
                    .contains("\"step\":\"test object\",\"result\":\"passed\"")
                    .contains("\"usable\":true");
        }
        assertThat(files(store)).hasSize(1);
        Path stored = files(store).get(0);
        assertThat(Validator.standard().validate(stored).errors()).isEmpty();
        DataSet object = DicomFile.read(stored).dataSet();
        assertThat(object.text(Attributes.PATIENT_ID)).contains("VESTIBULE-TEST-OBJECT");
        assertThat(object.text(Attributes.IMAGE_COMMENTS).orElse("")).contains("may be deleted");
    }

    private static List<Path> files(Path folder) throws IOException {
        List<Path> all = new ArrayList<>();
        try (Stream<Path> found = Files.walk(folder)) {
            found.filter(Files::isRegularFile).forEach(all::add);
        }
        return all;
    }

    @Test
    @DisplayName("ends in time against a port that keeps silent, and leaves no thread")
    void silence() throws Exception {
        try (ServerSocket silent = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Wishes brief = Wishes.USUAL.within(Duration.ofMillis(500), AMPLE, AMPLE);
            Probe.Report report = probed(at(silent.getLocalPort()), brief);
            assertStep(report, Step.Part.CONNECTION, Step.Result.PASSED);
            assertThat(report.usable()).isFalse();
            assertThat(report.steps())
                    .filteredOn(step -> step.result() == Step.Result.FAILED)
                    .hasSize(1);
            assertStep(report, Step.Part.ASSOCIATION, Step.Result.FAILED, "of the probe were over");
            assertStep(report, Step.Part.ECHO, Step.Result.NOT_ASKED);
        }
        assertThat(Thread.getAllStackTraces().keySet())
                .extracting(Thread::getName)
                .doesNotContain("probe");
    }

    @Test
    @DisplayName("goes by TLS with the keys and certificates of the settings, which name a mistake with exit code 78")
    void tls() throws Exception {
        assumeTrue(Authority.isPossible(), "openssl is not installed");
        Authority root = Authority.root(folder, "root");
        Authority.Pair own = root.issue("own");
        Tls server = Tls.of(new TlsFiles(
                Optional.of(own.certificate()),
                Optional.of(own.key()),
                Optional.empty(),
                Optional.of(root.certificate()),
                true,
                true));
        Path settings = folder.resolve("practice.toml");
        Files.writeString(settings, "[tls]\ntrust = 'root.pem'\ncertificate = 'own.pem'\nkey = 'own.key'\n");
        try (EmbeddedArchive archive = EmbeddedArchive.start(
                folder.resolve("secured"),
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                ARCHIVE,
                Optional.of(server))) {
            String url = "dicoms://127.0.0.1:%d/ARCHIVE".formatted(archive.port());
            Ran good = Ran.vestibule("probe", "--to", url, "--config", settings.toString());
            assertThat(good.exit()).as(good.out()).isZero();
            assertThat(good.out()).contains("TLSv1.3").contains("valid until");
            Ran patients = Ran.vestibule("patients", "--to", url, "--config", settings.toString());
            assertThat(patients.exit()).as(patients.err()).isZero();
            Files.writeString(settings, "[tls]\ntrust = 'root.pem'\n");
            Ran nobody = Ran.vestibule("probe", "--to", url, "--config", settings.toString());
            assertThat(nobody.exit()).isEqualTo(69);
            assertThat(nobody.out()).contains("wants a certificate of ours, and we have none");
        }
        Files.writeString(settings, "[tls]\ntrust = 'practice.toml'\n[listener]\nport = 0\ncallers = [\"A\\\\B\"]\n");
        Ran wrong = Ran.vestibule("probe", "--to", "dicoms://127.0.0.1:1/A", "--config", settings.toString());
        assertThat(wrong.exit()).isEqualTo(78);
        assertThat(wrong.err()).contains("listener.port is 0").contains("listener.callers is no list of AE titles");
        Files.writeString(settings, "[tls]\ntrust = 'practice.toml'\n");
        Ran format = Ran.vestibule(
                "send", folder.toString(), "--to", "dicoms://127.0.0.1:1/A", "--config", settings.toString());
        assertThat(format.exit()).isEqualTo(78);
        assertThat(format.err()).contains("practice.toml is neither PEM");
    }
}
