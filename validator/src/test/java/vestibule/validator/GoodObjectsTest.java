package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.io.DicomFile;

@DisplayName("A good VL Photographic Image")
class GoodObjectsTest {

    @TempDir
    Path folder;

    @Test
    @DisplayName("passes before it is written, with notes only")
    void passesUnwritten() throws IOException {
        ObjectReport report = Validator.standard().validate(Photographs.good(), Photographs.SYNTAX);
        assertThat(report.findings()).allMatch(finding -> finding.severity() == Severity.NOTE);
        assertThat(report.verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    @DisplayName("passes as a file with the same findings")
    void passesAsFile() throws IOException {
        Path file = folder.resolve("good.dcm");
        DicomFile.write(file, Photographs.good(), Photographs.SYNTAX);
        ObjectReport written = Validator.standard().validate(file);
        assertThat(written.verdict()).isEqualTo(Verdict.PASS);
        assertThat(written.findings())
                .extracting(Finding::line)
                .containsExactlyElementsOf(
                        Validator.standard().validate(Photographs.good(), Photographs.SYNTAX).findings().stream()
                                .map(Finding::line)
                                .toList());
    }

    @Test
    @DisplayName("passes in grey too")
    void passesInGrey() throws IOException {
        assertThat(Validator.under(Profile.PRACTICE)
                        .validate(Photographs.grey(), Photographs.SYNTAX)
                        .verdict())
                .isEqualTo(Verdict.PASS);
    }
}
