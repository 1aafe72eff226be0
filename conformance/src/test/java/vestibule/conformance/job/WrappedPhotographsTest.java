package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.conformance.Corpus;
import vestibule.conformance.crosscheck.DcmdumpReader;
import vestibule.conformance.crosscheck.Flat;
import vestibule.conformance.crosscheck.PydicomReader;
import vestibule.conformance.peer.ArchiveUnderTest;
import vestibule.conformance.peer.Dciodvfy;
import vestibule.conformance.peer.DcmtkReceiver;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayName("Photographs of other people's cameras become VL Photographic Image objects")
class WrappedPhotographsTest {

    @TempDir
    private static Path folder;

    private final Map<Corpus.Row, Commands.Said> said = new LinkedHashMap<>();
    private final Map<Path, Path> wrapped = new LinkedHashMap<>();

    @BeforeAll
    void wrap() throws IOException {
        List<Corpus.Row> photographs = new ArrayList<>(Corpus.rows("camera"));
        Corpus.rows("dicom").stream()
                .filter(row -> row.toString().endsWith(".jpg"))
                .forEach(photographs::add);
        for (Corpus.Row row : photographs) {
            Path target = folder.resolve("%03d.dcm".formatted(said.size()));
            Commands.Said answer = Commands.wrap(row.path(), target);
            said.put(row, answer);
            if (answer.exit() == 0) {
                wrapped.put(row.path(), target);
            } else {
                assertThat(target).doesNotExist();
            }
        }
    }

    private static boolean isBaselineAndUpright(Corpus.Row row) {
        boolean baseline = row.column("special").startsWith("SOF0 baseline, 8-bit");
        boolean turned = row.column("orientation").matches("[2-8]");
        return baseline && !turned;
    }

    private boolean asRecorded(Path photograph) {
        return said.keySet().stream().anyMatch(row -> row.path().equals(photograph) && isBaselineAndUpright(row));
    }

    private static byte[] stream(Path object) throws IOException {
        Value value = DicomFile.read(object)
                .dataSet()
                .find(Attributes.PIXEL_DATA)
                .orElseThrow()
                .value();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        assertThat(((Value.Fragments) value).fragments()).hasSize(1);
        ((Value.Fragments) value).fragments().get(0).transferTo(Channels.newChannel(bytes));
        return bytes.toByteArray();
    }

    @TestFactory
    @DisplayName(
            "every upright JPEG Baseline is wrapped, every other is put right without loss or refused in one plain sentence")
    Stream<DynamicTest> wrappedOrRefused() {
        return said.entrySet().stream()
                .map(entry -> dynamicTest(entry.getKey().toString(), () -> {
                    if (isBaselineAndUpright(entry.getKey())) {
                        assertThat(entry.getValue().err())
                                .matches(
                                        "(vestibule wrap: .*( ICC profile.*, so it is not used|; look whether .*)\\.\\R)*");
                        assertThat(entry.getValue().exit()).isZero();
                    } else if (entry.getValue().exit() != 0) {
                        assertThat(entry.getValue().exit()).isEqualTo(65);
                        entry.getValue()
                                .isOnePlainSentence("wrap", entry.getKey().path());
                    }
                }));
    }

    @Test
    @DisplayName("dciodvfy finds no error, and no warning that has no reason")
    void dciodvfy() throws IOException {
        Dciodvfy dciodvfy = Dciodvfy.find();
        List<String> findings = new ArrayList<>();
        for (Map.Entry<Path, Path> object : wrapped.entrySet()) {
            for (String finding : dciodvfy.findings(object.getValue())) {
                if (!ExplainedWarnings.explains(finding)) {
                    findings.add(object.getKey().getFileName() + ": " + finding);
                }
            }
        }
        assertThat(findings).isEmpty();
        assertThat(wrapped).hasSizeGreaterThan(80);
    }

    @TestFactory
    @DisplayName(
            "the encapsulated stream is the camera's, byte for byte, apart from APPn and COM, unless it had to be turned (PS3.5 8.2.1, A.4.1)")
    Stream<DynamicTest> streams() {
        return wrapped.entrySet().stream()
                .map(object -> dynamicTest(object.getKey().getFileName().toString(), () -> {
                    byte[] source = Files.readAllBytes(object.getKey());
                    byte[] encapsulated = stream(object.getValue());
                    if (asRecorded(object.getKey())) {
                        assertThat(JpegWalk.withoutMetadata(encapsulated)).isEqualTo(JpegWalk.withoutMetadata(source));
                    }
                    assertThat(JpegWalk.metadata(source)).containsAll(JpegWalk.metadata(encapsulated));
                    assertThat(JpegWalk.metadata(encapsulated))
                            .as("only what a decoder needs to see the same colours")
                            .allMatch(segment -> segment.matches("(?s)EE Adobe.*"));
                    boolean padded = encapsulated[encapsulated.length - 1] == 0;
                    assertThat(encapsulated[encapsulated.length - (padded ? 2 : 1)])
                            .as("nothing after EOI")
                            .isEqualTo((byte) 0xD9);
                }));
    }

    @TestFactory
    @DisplayName("the same photograph wrapped by others holds the same stream")
    Stream<DynamicTest> pairs() {
        return wrapped.entrySet().stream()
                .filter(object -> object.getKey().toString().contains("photo-pairs"))
                .map(object -> dynamicTest(object.getKey().getFileName().toString(), () -> {
                    Path other = Path.of(object.getKey().toString().replace(".jpg", ".dcm"));
                    assertThat(JpegWalk.withoutMetadata(stream(object.getValue())))
                            .isEqualTo(JpegWalk.withoutMetadata(stream(other)));
                }));
    }

    @Test
    @DisplayName("dcmdump and our reader agree on every attribute")
    void dcmdump() throws IOException {
        Map<Path, Flat> theirs = DcmdumpReader.read(List.copyOf(wrapped.values()));
        for (Path object : wrapped.values()) {
            DicomFile file = DicomFile.read(object);
            Flat ours = DcmdumpReader.comparable(Flat.of(file.meta(), file.dataSet()));
            assertThat(ours.differences(theirs.get(object)))
                    .as(object.toString())
                    .isEmpty();
        }
    }

    @Test
    @DisplayName("pydicom and our reader agree on every attribute")
    void pydicom() throws IOException {
        Map<Path, Optional<Flat>> theirs = PydicomReader.read(List.copyOf(wrapped.values()));
        for (Path object : wrapped.values()) {
            DicomFile file = DicomFile.read(object);
            Flat ours = Flat.of(file.meta(), file.dataSet());
            assertThat(ours.differences(theirs.get(object).orElseThrow()))
                    .as(object.toString())
                    .isEmpty();
        }
    }

    @Test
    @DisplayName("dcmftest takes them for DICOM files (PS3.10 7)")
    void dcmftest() throws IOException {
        List<String> arguments = wrapped.values().stream().map(Path::toString).toList();
        assertThat(Tool.named("dcmftest").run(arguments).out().lines())
                .hasSameSizeAs(wrapped.values())
                .allMatch(line -> line.startsWith("yes: "));
    }

    @Test
    @DisplayName("the same photograph and decisions give the same bytes again")
    void reproducible() throws IOException {
        Map.Entry<Path, Path> one = wrapped.entrySet().iterator().next();
        Path again = folder.resolve("again.dcm");
        assertThat(Commands.wrap(one.getKey(), again).exit()).isZero();
        assertThat(again).hasSameBinaryContentAs(one.getValue());
        Files.delete(again);
    }

    @ParameterizedTest
    @DisplayName("an archive stores them, and gives the same attributes and stream back")
    @MethodSource("vestibule.conformance.peer.ArchiveUnderTest#providers")
    void archive(ArchiveUnderTest.Provider provider, @TempDir Path fetched) throws IOException {
        try (ArchiveUnderTest archive = provider.start()) {
            List<Path> objects = List.copyOf(wrapped.values());
            Commands.Said answer = Commands.send(objects, archive.url());
            assertThat(answer.err()).isEmpty();
            assertThat(answer.exit()).isZero();
            assertThat(archive.instances()).hasSize(objects.size());
            for (Path object : objects) {
                DicomFile sent = DicomFile.read(object);
                Path file = archive.fetch(sent.sopInstance().orElseThrow().value(), fetched);
                DicomFile kept = DicomFile.read(file);
                assertThat(kept.transferSyntax()).isEqualTo(sent.transferSyntax());
                assertThat(Flat.of(sent.dataSet()).differences(Flat.of(kept.dataSet())))
                        .isEmpty();
                Files.delete(file);
            }
        }
    }

    @Test
    @DisplayName("DCMTK's receiver gets every data set bit by bit as it stands in our file")
    void receiver(@TempDir Path received) throws IOException {
        try (DcmtkReceiver receiver = DcmtkReceiver.start(received)) {
            List<Path> objects = List.copyOf(wrapped.values());
            Commands.Said answer = Commands.send(objects, receiver.url());
            assertThat(answer.err()).isEmpty();
            assertThat(answer.exit()).isZero();
            Map<String, Path> files = receiver.received();
            for (Path object : objects) {
                DicomFile sent = DicomFile.read(object);
                DicomFile kept = DicomFile.read(
                        files.get(sent.sopInstance().orElseThrow().value()));
                assertThat(Flat.told(kept.encodedDataSet())).isEqualTo(Flat.told(sent.encodedDataSet()));
            }
        }
    }
}
