package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.conformance.Corpus;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.validator.ObjectReport;
import vestibule.validator.Validator;
import vestibule.validator.Verdict;

/** Runs in a heap of 256 MB, as every test here does. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayName("Odd, hostile and foreign files are done right or refused in one plain sentence")
class BadInputTest {

    /** What a busy machine may take as well; a file that makes a program hang takes longer. */
    private static final Duration LONGEST = Duration.ofSeconds(20);

    @TempDir
    private static Path folder;

    private List<Path> files;
    private EmbeddedArchive archive;

    @BeforeAll
    void start() throws IOException {
        files = new ArrayList<>();
        for (String name : List.of("jpeg-odd", "jpeg-hostile", "dicom")) {
            Corpus.rows(name).forEach(row -> files.add(row.path()));
        }
        Path store = Files.createDirectories(folder.resolve("store"));
        archive = EmbeddedArchive.start(
                store, new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), new AeTitle("ARCHIVE"));
        warmUp();
    }

    @AfterAll
    void stop() {
        if (archive != null) {
            archive.close();
        }
    }

    /** The limit of time is one for the work, not for the first loading of classes. */
    private void warmUp() {
        Commands.wrap(folder.resolve("absent.jpg"), folder.resolve("absent.dcm"));
        Validator.standard();
    }

    private static <T> T inTime(Supplier<T> work) {
        long start = System.nanoTime();
        T result = work.get();
        assertThat(Duration.ofNanos(System.nanoTime() - start)).isLessThan(LONGEST);
        return result;
    }

    private Stream<DynamicTest> each(String command, Case test) {
        return files.stream()
                .map(file -> dynamicTest(
                        command + " " + file.getParent().getFileName() + "/" + file.getFileName(),
                        () -> test.run(file)));
    }

    private interface Case {
        void run(Path file) throws IOException;
    }

    @TestFactory
    @DisplayName("by wrap")
    Stream<DynamicTest> wrap() throws IOException {
        Path target = Files.createDirectories(folder.resolve("out")).resolve("object.dcm");
        return each("wrap", file -> {
            Commands.Said said = inTime(() -> Commands.wrap(file, target));
            if (said.exit() == 0) {
                assertThat(DicomFile.read(target).notes()).isEmpty();
                Files.delete(target);
            } else {
                assertThat(said.exit()).as(said.err()).isIn(1, 65);
                said.isOnePlainSentence("wrap", file);
            }
            try (Stream<Path> left = Files.list(folder.resolve("out"))) {
                assertThat(left).as("left behind").isEmpty();
            }
        });
    }

    @TestFactory
    @DisplayName("by send")
    Stream<DynamicTest> send() {
        String url = "dicom://127.0.0.1:%d/ARCHIVE".formatted(archive.port());
        return each("send", file -> {
            Commands.Said said = inTime(() -> Commands.send(List.of(file), url));
            assertThat(said.exit()).as(said.err()).isIn(0, 1, 65);
            if (said.exit() == 0) {
                assertThat(said.err()).isEmpty();
            } else {
                said.isOnePlainSentence("send", file);
            }
        });
    }

    @TestFactory
    @DisplayName("by the validator")
    Stream<DynamicTest> validator() {
        Validator validator = Validator.standard();
        return each("validate", file -> {
            ObjectReport report = inTime(() -> validator.validate(file));
            if (report.verdict() == Verdict.UNREADABLE) {
                assertThat(report.reason().orElseThrow()).isNotBlank().doesNotContain("Exception", "\n");
            } else {
                assertThat(report.findings())
                        .isNotEmpty()
                        .allSatisfy(finding ->
                                assertThat(finding.line()).isNotBlank().doesNotContain("Exception"));
            }
            if (!file.toString().contains("/dicom/") || file.toString().endsWith(".jpg")) {
                assertThat(report.verdict()).isEqualTo(Verdict.UNREADABLE);
            }
        });
    }

    @Test
    @DisplayName("by the validator's command, all in one run")
    void validatorCommand() throws IOException {
        Path java = Path.of(System.getProperty("java.home"), "bin", "java");
        List<String> words = new ArrayList<>(
                List.of("-Xmx256m", "-cp", System.getProperty("java.class.path"), "vestibule.validator.app.Main"));
        files.forEach(file -> words.add(file.toString()));
        Tool.Said said = new Tool(java).run(words);
        assertThat(said.exit()).as(said.err()).isEqualTo(1);
        assertThat(said.all()).doesNotContain("\tat ").doesNotContain("Exception in thread");
    }
}
