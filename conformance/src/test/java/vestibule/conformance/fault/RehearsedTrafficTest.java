package vestibule.conformance.fault;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.app.Main;
import vestibule.bridge.app.Terminal;
import vestibule.bridge.delivery.Destination;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.CommitmentUser;
import vestibule.dicom.service.OperationOutcome;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

@DisplayName("Objects and commitment requests through the rehearsal kit as a program")
@Timeout(120)
class RehearsedTrafficTest {

    private static final AeTitle OWN = new AeTitle("VESTIBULE");
    private static final Deadlines PATIENCE = Deadlines.all(Duration.ofSeconds(20));
    private static final Duration REPORT = Duration.ofSeconds(1);

    @TempDir
    Path folder;

    private final CountDownLatch stop = new CountDownLatch(1);
    private final List<Thread> programs = new ArrayList<>();
    private final BlockingQueue<CommitmentReport> heard = new LinkedBlockingQueue<>();
    private DicomFile object;
    private int transactions;

    @BeforeEach
    void makeObject() throws IOException {
        Path photo = Files.write(folder.resolve("photo.jpg"), Photographs.jpeg(1, 64));
        Path file = folder.resolve("object.dcm");
        String words = "wrap %s --out %s --view teeth-front-occlusion --patient-id PG-0001 --patient-name Exempel^Zoe"
                .formatted(photo, file);
        assertThat(Main.run(words.split(" "), new Terminal(System.out, System.err)))
                .isZero();
        object = DicomFile.read(file);
    }

    @AfterEach
    void end() throws InterruptedException {
        stop.countDown();
        for (Thread program : programs) {
            program.join();
        }
    }

    /** Starts the program as its words say, until the test ends; its first line. */
    private String started(String... words) throws IOException {
        PipedInputStream said = new PipedInputStream();
        PrintStream out = new PrintStream(new PipedOutputStream(said), true, UTF_8);
        Thread program = new Thread(
                () -> {
                    try {
                        Rehearsal.run(words, out, System.err, stop);
                    } catch (IOException | InterruptedException e) {
                        throw new IllegalStateException(e);
                    }
                },
                "rehearsal");
        programs.add(program);
        program.start();
        return new BufferedReader(new InputStreamReader(said, UTF_8)).readLine();
    }

    private Destination archive(String... behaviour) throws Exception {
        List<String> words = new ArrayList<>(List.of("archive", "0"));
        words.addAll(List.of(behaviour));
        return Destination.parse(started(words.toArray(String[]::new)).replace("listening on ", ""));
    }

    private Destination link(Destination before, String fault) throws Exception {
        String line = started("link", before.host() + ":" + before.port(), "0", fault);
        int port = Integer.parseInt(line.replaceAll("listening on port (\\d+),.*", "$1"));
        return new Destination("127.0.0.1", port, before.calledAe(), Optional.empty());
    }

    private Association associate(Destination archive) throws IOException {
        List<ProposedContext> contexts = new ArrayList<>(StorageUser.proposals(List.of(object)));
        contexts.add(CommitmentUser.proposal());
        return Association.open(AssociationRequest.of(OWN, contexts), archive.entity(), PATIENCE);
    }

    private StoreOutcome store(Destination archive) throws IOException {
        try (Association association = associate(archive)) {
            return new StorageUser(association).store(object);
        }
    }

    private SopReference reference() {
        return new SopReference(
                object.sopClass().orElseThrow(), object.sopInstance().orElseThrow());
    }

    /** Asks for commitment; the reports that came on the same association. */
    private List<CommitmentReport> ask(Destination archive) throws IOException {
        List<CommitmentReport> reports = new ArrayList<>();
        try (Association association = associate(archive)) {
            CommitmentUser user = new CommitmentUser(association, (report, from) -> reports.add(report));
            Uid transaction = new Uid("2.25.%d".formatted(++transactions));
            assertThat(user.request(new CommitmentRequest(transaction, List.of(reference()))))
                    .isInstanceOf(OperationOutcome.Done.class);
            while (user.awaitReport(REPORT).isPresent()) {
                assertThat(reports).hasSizeLessThan(3);
            }
        }
        return reports;
    }

    @Test
    @DisplayName("a warning with the object kept is committed to, one without is not")
    void warnings() throws Exception {
        Destination keeps = archive("status=B000,kept");
        assertThat(store(keeps)).isInstanceOf(StoreOutcome.StoredChanged.class);
        assertThat(ask(keeps))
                .singleElement()
                .satisfies(report -> assertThat(report.committed()).containsExactly(reference()));
        Destination loses = archive("status=B000");
        assertThat(store(loses)).isInstanceOf(StoreOutcome.StoredChanged.class);
        assertThat(ask(loses))
                .singleElement()
                .satisfies(report -> assertThat(report.failed()).hasSize(1));
    }

    @Test
    @DisplayName("reports that are wrong, repeated or half a promise, for as long as the words say")
    void reports() throws Exception {
        Destination wrong = archive("wrong-report", "first=1");
        store(wrong);
        assertThat(ask(wrong))
                .as("a transaction that nobody asked for")
                .singleElement()
                .satisfies(report -> assertThat(report.transaction()).isNotEqualTo(new Uid("2.25.1")));
        assertThat(ask(wrong))
                .singleElement()
                .satisfies(report -> assertThat(report.transaction()).isEqualTo(new Uid("2.25.2")));
        Destination twice = archive("repeats-report");
        store(twice);
        assertThat(ask(twice))
                .hasSize(2)
                .allSatisfy(report -> assertThat(report.committed()).containsExactly(reference()));
        Destination half = archive("half-report");
        store(half);
        assertThat(ask(half))
                .singleElement()
                .satisfies(report -> assertThat(report.failed()).hasSize(1));
    }

    @Test
    @DisplayName("a report that comes late, on an association of the archive's own")
    void late() throws Exception {
        ServiceProvider services =
                new ServiceProvider(List.of(new CommitmentReceiver((report, from) -> heard.add(report))));
        try (AssociationListener listener = services.listen(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), AcceptorSettings.of(OWN, List.of()))) {
            Destination archive = archive(
                    "late=1",
                    "report-to=dicom://127.0.0.1:%d/VESTIBULE"
                            .formatted(listener.address().getPort()));
            store(archive);
            assertThat(ask(archive)).isEmpty();
            CommitmentReport report = heard.poll(30, TimeUnit.SECONDS);
            assertThat(report).isNotNull();
            assertThat(report.committed()).containsExactly(reference());
        }
    }

    @Test
    @DisplayName("a message that goes through twice is noticed, and not taken for a second object")
    void duplicate() throws Exception {
        Destination archive = archive("healthy");
        Destination link = link(archive, "duplicate-there=1");
        assertThat(store(link)).isInstanceOf(StoreOutcome.Unknown.class);
        assertThat(store(archive)).isInstanceOf(StoreOutcome.Stored.class);
        assertThat(ask(archive))
                .singleElement()
                .satisfies(report -> assertThat(report.committed()).containsExactly(reference()));
    }
}
