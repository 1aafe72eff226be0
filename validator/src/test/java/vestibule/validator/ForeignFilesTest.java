package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

@DisplayName("Files that others made")
class ForeignFilesTest {

    private static final Duration PATIENCE = Duration.ofSeconds(2);

    @TestFactory
    @DisplayName("get a verdict within two seconds each, whatever is wrong with them")
    Stream<DynamicTest> verdicts() throws IOException {
        return Stream.of("dicom", "jpeg-hostile", "jpeg-odd").flatMap(ForeignFilesTest::each);
    }

    private static Stream<DynamicTest> each(String name) {
        Optional<Path> folder = Corpus.folder(name);
        if (folder.isEmpty()) {
            return Stream.of(DynamicTest.dynamicTest(
                    name, () -> assumeTrue(false, "the corpus folder " + name + " is not here")));
        }
        boolean objects = name.equals("dicom");
        try {
            return Corpus.files(folder.get()).stream()
                    .map(file -> DynamicTest.dynamicTest(
                            name + "/" + folder.get().relativize(file), () -> check(file, objects)));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static void check(Path file, boolean objects) {
        ObjectReport report = Assertions.assertTimeout(
                PATIENCE, () -> Validator.under(Profile.PRACTICE).validate(file));
        if (report.verdict() == Verdict.UNREADABLE) {
            assertThat(report.reason().orElseThrow())
                    .doesNotContain("Exception")
                    .doesNotContain("null");
            assertThat(report.findings()).isEmpty();
        } else {
            assertThat(report.reason()).isEmpty();
        }
        if (!objects) {
            assertThat(report.verdict()).isEqualTo(Verdict.UNREADABLE);
        }
    }
}
