package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("A batch")
class BatchTest {

    @TempDir
    Path folder;

    private List<String> paths(Path... starts) throws IOException {
        return Validator.standard().validate(List.of(starts)).objects().stream()
                .map(report -> folder.relativize(report.path().orElseThrow()) + " "
                        + report.verdict().word())
                .toList();
    }

    @Test
    @DisplayName("is judged by name within each folder, in the order of the paths")
    void order() throws IOException {
        Files.createDirectories(folder.resolve("b/c"));
        for (String name : List.of("b/2.dcm", "b/1.dcm", "b/c/0.dcm", "a.dcm")) {
            Example.of(Photographs.good()).write(folder.resolve(name));
        }
        Files.writeString(folder.resolve("b/notes.txt"), "notes");
        assertThat(paths(folder.resolve("b"), folder.resolve("a.dcm")))
                .containsExactly(
                        "b/1.dcm pass", "b/2.dcm pass", "b/c/0.dcm pass", "b/notes.txt unreadable", "a.dcm pass");
    }

    @Test
    @DisplayName("ends although links lead in a circle, and says which links lead nowhere")
    void links() throws IOException {
        Files.createDirectories(folder.resolve("a/b"));
        Example.of(Photographs.good()).write(folder.resolve("a/x.dcm"));
        Files.createSymbolicLink(folder.resolve("a/b/back"), folder.resolve("a"));
        Files.createSymbolicLink(folder.resolve("a/b/gone"), folder.resolve("nowhere"));
        Files.createSymbolicLink(folder.resolve("a/b/self"), folder.resolve("a/b/self"));
        assertThat(paths(folder.resolve("a")))
                .containsExactly("a/b/gone unreadable", "a/b/self unreadable", "a/x.dcm pass");
    }

    @Test
    @DisplayName("counts every verdict")
    void summary() throws IOException {
        Example.of(Photographs.good()).write(folder.resolve("1.dcm"));
        Example.of(Mutation.removals(Photographs.good()).get(1).changed()).write(folder.resolve("2.dcm"));
        Files.write(folder.resolve("3.dcm"), new byte[0]);
        assertThat(Validator.standard().validate(List.of(folder)).summary()).isEqualTo(new Summary(1, 0, 1, 1));
    }

    @Test
    @DisplayName("lists at most 100 findings of a rule for an object, and counts the others")
    void manyFindings() throws IOException {
        var builder = Photographs.good().toBuilder();
        for (int i = 1; i <= 150; i++) {
            builder.put(new vestibule.dicom.data.Element(
                    vestibule.dicom.data.Tag.of(0x0009, 0x1000 + i),
                    vestibule.dicom.data.VR.LO,
                    new vestibule.dicom.data.Value.Texts(List.of("x"))));
        }
        ObjectReport report = Validator.standard().validate(builder.build(), Photographs.SYNTAX);
        RuleId rule = RuleId.parse("VAL-040");
        assertThat(report.findings().stream()
                        .filter(finding -> finding.rule().id().equals(rule)))
                .hasSize(100);
        assertThat(report.notListed()).containsEntry(rule, 50);
    }
}
