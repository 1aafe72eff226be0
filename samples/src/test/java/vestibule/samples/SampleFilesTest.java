package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("Hand-assembled DICOM files")
class SampleFilesTest {
    @TempDir
    Path folder;

    static List<SampleFile> all() {
        return Samples.files();
    }

    static Stream<SampleFile> good() {
        return all().stream().filter(SampleFile::good);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("all")
    void everyFileAssemblesAndIsSmall(SampleFile file) {
        assertThat(file.bytes()).hasSizeLessThan(2000);
        assertThat(file.text()).startsWith("# " + file.shows());
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("good")
    void goodFilesHaveEvenLengthPreambleAndPrefix(SampleFile file) {
        byte[] bytes = file.bytes();

        assertThat(bytes.length % 2).isZero();
        assertThat(Arrays.copyOfRange(bytes, 128, 132)).containsExactly('D', 'I', 'C', 'M');
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("good")
    void goodFilesAreReadByAnIndependentToolkitWithoutAnError(SampleFile file)
            throws IOException, InterruptedException {
        boolean there = Arrays.stream(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator, -1))
                .anyMatch(p -> Files.isExecutable(Path.of(p, "dcmdump")));
        assumeTrue(there, "skipped: dcmdump is not installed here (Debian: dcmtk)");
        Path dicom = Files.write(folder.resolve("file.dcm"), file.bytes());
        Path out = folder.resolve("out.txt");

        Process process = new ProcessBuilder("dcmdump", dicom.toString())
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();

        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(file.name()).isZero();
        assertThat(new String(Files.readAllBytes(out), java.nio.charset.StandardCharsets.ISO_8859_1).lines())
                .noneMatch(line -> line.startsWith("E:"))
                // the toolkit tells that it follows the rule for sequences sent as UN; that is no complaint
                .noneMatch(line -> line.startsWith("W:") && !line.contains("CP-246"));
    }

    @Test
    void nestedSequencesAreAsDeepAsAsked() {
        byte[] plain = Samples.file("explicit-little-endian");

        assertThat(SampleFile.nested(0)).isEqualTo(plain);
        assertThat(SampleFile.nested(1000)).hasSize(plain.length + 1000 * 36);
    }
}
