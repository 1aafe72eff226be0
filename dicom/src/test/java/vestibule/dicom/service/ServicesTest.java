package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
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
import vestibule.dicom.net.ScriptedPeer;
import vestibule.dicom.net.SupportedContext;

@DisplayName("Services, user against provider (PS3.4)")
@Timeout(60)
class ServicesTest {

    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final Uid PHOTO = Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE;
    private static final Duration LONG = Duration.ofSeconds(20);

    @TempDir
    private Path folder;

    private final List<AutoCloseable> opened = new ArrayList<>();

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

    private ApplicationEntity providing(AcceptorSettings settings, ProvidedService... services) throws IOException {
        AssociationListener listener = closedLater(new ServiceProvider(List.of(services))
                .listen(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), settings));
        return new ApplicationEntity(ARCHIVE, "127.0.0.1", listener.address().getPort());
    }

    private ApplicationEntity providing(ProvidedService... services) throws IOException {
        return providing(AcceptorSettings.of(ARCHIVE, List.of()), services);
    }

    private Association associate(ApplicationEntity peer, ProposedContext... contexts) throws IOException {
        return closedLater(
                Association.open(AssociationRequest.of(new AeTitle("US"), List.of(contexts)), peer, Deadlines.DEFAULT));
    }

    private StorageProvider storage(StorageProvider.Handler handler) throws IOException {
        return storage(1L << 40, handler);
    }

    private Path incoming() throws IOException {
        return Files.createDirectories(folder.resolve("incoming"));
    }

    private StorageProvider storage(long longest, StorageProvider.Handler handler) throws IOException {
        return new StorageProvider(List.of(PHOTO), List.of(Uids.JPEG_BASELINE8_BIT), incoming(), longest, handler);
    }

    private static ProposedContext photos() {
        return ProposedContext.of(PHOTO, Uids.JPEG_BASELINE8_BIT);
    }

    private void nothingIsLeftBehind() throws IOException {
        try (Stream<Path> files = Files.list(incoming())) {
            assertThat(files).isEmpty();
        }
    }

    @Test
    @DisplayName("C-ECHO is answered")
    void echo() throws IOException {
        Association association = associate(providing(new VerificationProvider()), VerificationUser.proposal());
        assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
        assertThat(new VerificationUser(association).echo()).isInstanceOf(EchoOutcome.Alive.class);
    }

    @Test
    @DisplayName("C-ECHO where Verification is not accepted says what to change")
    void echoNotAccepted() throws IOException {
        Association association =
                associate(providing(storage(received -> Status.SUCCESS)), VerificationUser.proposal());
        assertThat(new VerificationUser(association).echo())
                .isEqualTo(
                        new EchoOutcome.NotSent(
                                "Verification SOP Class: the peer does not take this SOP class; switch the service on at the peer"));
    }

    // Around the fragment sizes of the two maximum lengths: 4090 and 131066 bytes of data in a PDU (PS3.8 E.2)
    @ParameterizedTest(name = "{0} bytes of pixels, PDUs of {1}")
    @CsvSource({
        "0, 4096",
        "2, 4096",
        "3700, 4096",
        "4090, 4096",
        "8180, 4096",
        "100001, 4096",
        "65536, 65536",
        "1000000, 16384",
        "1000000, 131072",
        "131066, 131072",
        "5000000, 1048576"
    })
    void an_object_arrives_byte_for_byte(int pixels, int pduLength) throws IOException {
        DicomFile photo = Objects.photo(folder, pixels, 7);
        Path kept = folder.resolve("kept.dcm");
        List<ReceivedObject> seen = new CopyOnWriteArrayList<>();
        ApplicationEntity peer =
                providing(AcceptorSettings.of(ARCHIVE, List.of()).withMaximumPduLength(pduLength), storage(received -> {
                    Files.move(received.file(), kept, StandardCopyOption.REPLACE_EXISTING);
                    seen.add(received);
                    return Status.SUCCESS;
                }));
        Association association = associate(peer, photos());
        assertThat(new StorageUser(association).store(photo)).isEqualTo(new StoreOutcome.Stored(0));
        DicomFile read = DicomFile.read(kept);
        assertThat(read.notes()).isEmpty();
        assertThat(read.encodedDataSet().bytes(1 << 30))
                .isEqualTo(photo.encodedDataSet().bytes(1 << 30));
        assertThat(read.transferSyntax()).isEqualTo(photo.transferSyntax());
        assertThat(read.meta().text(Attributes.SOURCE_APPLICATION_ENTITY_TITLE)).contains("US");
        assertThat(seen.get(0).calling()).isEqualTo(new AeTitle("US"));
        assertThat(seen.get(0).sopInstance()).isEqualTo(photo.sopInstance().orElseThrow());
        assertThat(seen.get(0).dataSetLength()).isEqualTo(photo.encodedDataSet().length());
        assertThat(seen.get(0).dataSetOffset()).isEqualTo(read.dataSetOffset());
        nothingIsLeftBehind();
    }

    @ParameterizedTest(name = "status {0}: {1}")
    @CsvSource({
        "0000, Stored",
        "B000, StoredChanged",
        "B007, StoredChanged",
        "0001, StoredChanged",
        "A700, Refused",
        "A900, Refused",
        "C001, Refused",
        "0122, Refused",
        "FF00, Refused",
        "1234, Refused"
    })
    void the_answer_decides_the_outcome(String status, String outcome) throws IOException {
        int code = Integer.parseInt(status, 16);
        Association association = associate(providing(storage(received -> code)), photos());
        StoreOutcome answer = new StorageUser(association).store(Objects.photo(folder, 100, 1));
        assertThat(answer.getClass().getSimpleName()).isEqualTo(outcome);
        nothingIsLeftBehind();
    }

    @Test
    @DisplayName("a refusal carries status, comment and whether to try again; the association goes on")
    void refusal() throws IOException {
        AtomicInteger calls = new AtomicInteger();
        Association association = associate(
                providing(storage(received -> switch (calls.incrementAndGet()) {
                    case 1 -> throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "Größe\\passt nicht");
                    case 2 -> throw new IOException("the disk is full");
                    case 3 -> throw new IllegalStateException("a fault");
                    default -> Status.SUCCESS;
                })),
                photos());
        StorageUser user = new StorageUser(association);
        DicomFile photo = Objects.photo(folder, 100, 1);
        assertThat(user.store(photo)).isEqualTo(new StoreOutcome.Refused(0xA900, "Gr??e?passt nicht", false));
        assertThat(user.store(photo))
                .isEqualTo(new StoreOutcome.Refused(0xA700, "the object could not be written to disk", true));
        assertThat(user.store(photo)).isEqualTo(new StoreOutcome.Refused(0x0110, "", true));
        assertThat(user.store(photo)).isEqualTo(new StoreOutcome.Stored(0));
        nothingIsLeftBehind();
    }

    @Test
    @DisplayName("an object beyond the limit is read over and refused, and the association goes on")
    void tooLong() throws IOException {
        Association association = associate(providing(storage(5_000, received -> Status.SUCCESS)), photos());
        StorageUser user = new StorageUser(association);
        assertThat(user.store(Objects.photo(folder, 1_000_000, 1)))
                .isEqualTo(new StoreOutcome.Refused(0xA700, "at most 5000 bytes are taken", true));
        assertThat(user.store(Objects.photo(folder, 4_000, 2))).isEqualTo(new StoreOutcome.Stored(0));
        nothingIsLeftBehind();
    }

    @Test
    @DisplayName(
            "an object whose transfer syntax is not accepted is not sent, not re-encoded, and the sentence says what is accepted")
    void transferSyntaxNotAccepted() throws IOException {
        ApplicationEntity peer = providing(new StorageProvider(
                List.of(PHOTO),
                List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN),
                incoming(),
                1 << 20,
                received -> Status.SUCCESS));
        Association association = associate(peer, photos(), ProposedContext.of(PHOTO, Uids.EXPLICIT_VR_LITTLE_ENDIAN));
        StoreOutcome.NotSent outcome =
                (StoreOutcome.NotSent) new StorageUser(association).store(Objects.photo(folder, 100, 1));
        assertThat(outcome.reason())
                .isEqualTo(
                        "VL Photographic Image Storage in JPEG Baseline (Process 1) was not sent: the peer takes the SOP class"
                                + " but not in this transfer syntax; switch the transfer syntax on at the peer; for this SOP class"
                                + " the peer accepted Explicit VR Little Endian");
        assertThat(outcome.accepted()).hasSize(1);
    }

    @Test
    @DisplayName("an object whose SOP class is not that of its context is refused (PS3.4 B.2.1)")
    void otherSopClass() throws IOException {
        Association association = associate(providing(storage(received -> Status.SUCCESS)), photos());
        vestibule.dicom.net.Command request =
                vestibule.dicom.net.Command.store(1, Uids.SECONDARY_CAPTURE_IMAGE_STORAGE, PHOTO);
        association.send(association.contexts().get(0), request, Bulk.of(new byte[20]));
        assertThat(association.answerTo(request).command().status()).isEqualTo(Status.SOP_CLASS_NOT_SUPPORTED);
    }

    @Test
    @DisplayName("after an association has been lost while the answer was due, the outcome is unknown")
    void unknown() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            wire.readCommand();
        })) {
            Association association = associate(peer.entity(), photos());
            StorageUser user = new StorageUser(association);
            DicomFile photo = Objects.photo(folder, 100, 1);
            assertThat(user.store(photo)).isInstanceOf(StoreOutcome.Unknown.class);
            assertThat(user.store(photo)).isInstanceOf(StoreOutcome.NotSent.class);
        }
    }

    @Test
    @DisplayName("a file that becomes shorter while it is sent ends the association; the peer cannot have the object")
    void shortened() throws IOException {
        AtomicInteger stored = new AtomicInteger();
        Association association = associate(
                providing(storage(received -> {
                    stored.incrementAndGet();
                    return Status.SUCCESS;
                })),
                photos());
        DicomFile photo = Objects.photo(folder, 1_000_000, 1);
        try (RandomAccessFile file = new RandomAccessFile(photo.path().toFile(), "rw")) {
            file.setLength(500_000);
        }
        assertThat(new StorageUser(association).store(photo)).isInstanceOf(StoreOutcome.NotSent.class);
        DicomFile gone = Objects.photo(folder, 1_000, 2);
        Files.delete(gone.path());
        Association second = associate(new ApplicationEntity(ARCHIVE, "127.0.0.1", peerPort()), photos());
        assertThat(new StorageUser(second).store(gone)).isInstanceOf(StoreOutcome.NotSent.class);
        assertThat(stored).hasValue(0);
    }

    private int peerPort() {
        return opened.stream()
                .filter(AssociationListener.class::isInstance)
                .map(listener -> ((AssociationListener) listener).address().getPort())
                .findFirst()
                .orElseThrow();
    }

    @Test
    @DisplayName("an object larger than the heap goes through without entering it")
    void largerThanTheHeap() throws IOException {
        long length = 600L << 20;
        assertThat(Runtime.getRuntime().maxMemory()).isLessThan(length);
        Path file = folder.resolve("large");
        try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
            sparse.setLength(length);
        }
        AtomicInteger status = new AtomicInteger(-1);
        List<SupportedContext> contexts = List.of(SupportedContext.provider(PHOTO, List.of(Uids.JPEG_BASELINE8_BIT)));
        AssociationListener listener = closedLater(AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                AcceptorSettings.of(ARCHIVE, contexts),
                association -> {
                    vestibule.dicom.net.Message message = association.receive().orElseThrow();
                    long received = association.receiveDataSet(new Discarding(), Long.MAX_VALUE);
                    status.set(received == length ? 0 : 0xC000);
                    association.send(message.context(), message.command().response(status.get(), false));
                    association.receive();
                }));
        Association association = associate(
                new ApplicationEntity(ARCHIVE, "127.0.0.1", listener.address().getPort()), photos());
        assertThat(new StorageUser(association).store(PHOTO, PHOTO, Uids.JPEG_BASELINE8_BIT, Bulk.of(file, 0, length)))
                .isEqualTo(new StoreOutcome.Stored(0));
    }

    private static final class Discarding implements WritableByteChannel {
        @Override
        public int write(ByteBuffer source) {
            int count = source.remaining();
            source.position(source.limit());
            return count;
        }

        @Override
        public boolean isOpen() {
            return true;
        }

        @Override
        public void close() {
            assertThat(this).isNotNull();
        }
    }

    private static DataSet study(String name) {
        return DataSet.builder()
                .put(Attributes.PATIENT_NAME, name)
                .put(Attributes.STUDY_INSTANCE_UID, "1.2.3")
                .build();
    }

    private static QueryProvider query(QueryProvider.Handler handler) {
        return new QueryProvider(QueryLevel.Model.STUDY_ROOT.find(), handler);
    }

    private QueryUser querying(QueryProvider.Handler handler) throws IOException {
        Association association = associate(providing(query(handler)), QueryUser.proposal(QueryLevel.Model.STUDY_ROOT));
        return new QueryUser(association, QueryLevel.Model.STUDY_ROOT);
    }

    private static final DataSet KEYS = DataSet.builder()
            .put(Attributes.PATIENT_NAME, "Müller*")
            .putEmpty(Attributes.STUDY_INSTANCE_UID)
            .putEmpty(Attributes.STUDY_DATE)
            .build();

    @Test
    @DisplayName("C-FIND carries keys there and matches back, with text beyond ASCII")
    void find() throws IOException {
        List<DataSet> asked = new CopyOnWriteArrayList<>();
        QueryUser user = querying((identifier, calling) -> {
            asked.add(identifier);
            return new QueryProvider.Answer(Stream.of(study("Müller^Zoë"), study("Αντωνίου^Ελένη")), true);
        });
        QueryOutcome outcome = user.find(QueryLevel.STUDY, KEYS, 10, LONG);
        assertThat(outcome).isInstanceOf(QueryOutcome.Complete.class);
        assertThat(outcome.matches())
                .extracting(match -> match.text(Attributes.PATIENT_NAME).orElseThrow())
                .containsExactly("Müller^Zoë", "Αντωνίου^Ελένη");
        assertThat(((QueryOutcome.Complete) outcome).everyKeySupported()).isTrue();
        assertThat(asked.get(0).text(Attributes.PATIENT_NAME)).contains("Müller*");
        assertThat(asked.get(0).text(Attributes.QUERY_RETRIEVE_LEVEL)).contains("STUDY");
        assertThat(asked.get(0).contains(Attributes.STUDY_DATE)).isTrue();
        assertThat(QueryKeys.missing(KEYS, outcome.matches().get(0))).containsExactly("(0008,0020) StudyDate");
    }

    @Test
    @DisplayName("missing keys are found inside sequences, once for each item that lacks one; empty is not missing")
    void missingKeys() {
        DataSet code = DataSet.builder().putEmpty(Attributes.CODE_VALUE).build();
        DataSet keys = DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .putEmpty(Attributes.STUDY_DATE)
                .put(Attributes.PROCEDURE_CODE_SEQUENCE, List.of(code))
                .build();
        DataSet match = DataSet.builder()
                .putEmpty(Attributes.STUDY_DATE)
                .put(Attributes.PROCEDURE_CODE_SEQUENCE, List.of(code, DataSet.EMPTY))
                .build();
        assertThat(QueryKeys.missing(keys, match))
                .containsExactly("(0008,1032) ProcedureCodeSequence > (0008,0100) CodeValue");
        assertThat(QueryKeys.missing(keys, keys)).isEmpty();
    }

    @Test
    @DisplayName("a query beyond its maximum is cancelled; the provider stops, and takes no match it does not send")
    void cancel() throws IOException {
        AtomicInteger taken = new AtomicInteger();
        AtomicBoolean closed = new AtomicBoolean();
        QueryUser user = querying((identifier, calling) -> new QueryProvider.Answer(
                IntStream.iterate(1, i -> i + 1)
                        .mapToObj(i -> study("N" + taken.incrementAndGet()))
                        .onClose(() -> closed.set(true)),
                true));
        QueryOutcome outcome = user.find(QueryLevel.STUDY, KEYS, 5, LONG);
        assertThat(outcome).isInstanceOf(QueryOutcome.CutShort.class);
        assertThat(outcome.matches()).hasSize(5);
        assertThat(((QueryOutcome.CutShort) outcome).reason()).contains("more than 5 matches");
        assertThat(closed).isTrue();
    }

    @Test
    @DisplayName("exactly as many matches as are wanted is complete")
    void exactlyEnough() throws IOException {
        QueryUser user =
                querying((identifier, calling) -> new QueryProvider.Answer(Stream.of(study("A"), study("B")), false));
        QueryOutcome outcome = user.find(QueryLevel.STUDY, KEYS, 2, LONG);
        assertThat(outcome).isInstanceOf(QueryOutcome.Complete.class);
        assertThat(((QueryOutcome.Complete) outcome).everyKeySupported()).isFalse();
    }

    @Test
    @DisplayName("a refused query says why; a fault in the middle keeps the matches and says so")
    void refusedQuery() throws IOException {
        AtomicInteger calls = new AtomicInteger();
        QueryUser user = querying((identifier, calling) -> {
            if (calls.incrementAndGet() == 1) {
                throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "no level");
            }
            return new QueryProvider.Answer(
                    Stream.of("A", "fault").map(name -> {
                        if (name.equals("fault")) {
                            throw new IllegalStateException("a fault");
                        }
                        return study(name);
                    }),
                    true);
        });
        QueryOutcome.Refused first = (QueryOutcome.Refused) user.find(QueryLevel.STUDY, KEYS, 9, LONG);
        assertThat(first.status().code()).isEqualTo(0xA900);
        assertThat(first.comment()).isEqualTo("no level");
        QueryOutcome.Refused second = (QueryOutcome.Refused) user.find(QueryLevel.STUDY, KEYS, 9, LONG);
        assertThat(second.matches()).hasSize(1);
        assertThat(second.status().code()).isEqualTo(0xC000);
    }

    @Test
    @DisplayName("a level the model does not have is not asked for")
    void level() throws IOException {
        QueryUser user = querying((identifier, calling) -> new QueryProvider.Answer(Stream.of(), true));
        assertThat(user.find(QueryLevel.PATIENT, KEYS, 9, LONG))
                .isEqualTo(new QueryOutcome.NotSent("study root has no level patient"));
    }

    @ParameterizedTest(name = "an operation a service does not have is answered 0211: {0}")
    @ValueSource(strings = {"echo to storage", "find to storage"})
    void unrecognizedOperation(String which) throws IOException {
        Association association = associate(providing(storage(received -> Status.SUCCESS)), photos());
        vestibule.dicom.net.Command request = which.startsWith("echo")
                ? vestibule.dicom.net.Command.echo(1, PHOTO)
                : vestibule.dicom.net.Command.find(1, PHOTO);
        if (request.hasDataSet()) {
            association.send(association.contexts().get(0), request, Bulk.of(new byte[100_000]));
        } else {
            association.send(association.contexts().get(0), request);
        }
        assertThat(association.answerTo(request).command().status()).isEqualTo(Status.UNRECOGNIZED_OPERATION);
        assertThat(new StorageUser(association).store(Objects.photo(folder, 100, 1)))
                .as("the association goes on")
                .isEqualTo(new StoreOutcome.Stored(0));
    }
}
