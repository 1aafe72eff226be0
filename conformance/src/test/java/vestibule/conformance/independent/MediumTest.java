package vestibule.conformance.independent;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.Tool;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Profile;
import vestibule.validator.Validator;
import vestibule.validator.Verdict;

/** The DICOMDIR is DCMTK's, the objects are pydicom's. */
@DisplayName("A medium")
class MediumTest {

    @TempDir
    Path medium;

    private List<ObjectReport> judged() throws IOException {
        return Validator.under(Profile.PRACTICE).validate(List.of(medium)).objects();
    }

    @Test
    @DisplayName("is judged object by object; its DICOMDIR too, of which is said how far it was checked (PS3.3 F.3)")
    void directory(@TempDir Path written) throws IOException {
        Files.createDirectory(medium.resolve("IMAGES"));
        IndependentObjectsTest.write(written);
        // The profile that DCMTK takes by itself is for objects that are not compressed
        Files.copy(written.resolve("native-7.dcm"), medium.resolve("IMAGES").resolve("A1"));
        assertThat(judged()).hasSize(1).allMatch(object -> object.verdict() == Verdict.PASS);
        Tool.Said said = Tool.named("dcmmkdir")
                .run(
                        "--invent",
                        "--output-file",
                        medium.resolve("DICOMDIR").toString(),
                        "--input-directory",
                        medium.toString(),
                        "IMAGES/A1");
        assertThat(said.exit()).as(said.err()).isZero();
        List<ObjectReport> objects = judged();
        assertThat(objects).hasSize(2).allMatch(object -> object.verdict() == Verdict.PASS);
        assertThat(objects.get(0).name()).endsWith("DICOMDIR");
        assertThat(objects.get(0).findings())
                .extracting(Finding::message)
                .containsExactly("this is no VL Photographic Image but Media Storage Directory Storage:"
                        + " checked are its file, its encoding and the forms of its values, and nothing beyond");
        assertThat(objects.get(1).findings()).isEmpty();
    }
}
