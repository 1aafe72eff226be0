package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

@DisplayName("Objects of a batch, compared")
class BatchRulesTest {

    /** For each rule, an object that contradicts the good photograph before it. */
    static final Map<String, DataSet> EXAMPLES = Map.of(
            "BAT-001",
            Photographs.good().toBuilder()
                    .put(Attributes.BURNED_IN_ANNOTATION, "YES")
                    .build(),
            "BAT-002",
            Photographs.good(),
            "BAT-003",
            another().put(Attributes.PATIENT_ID, "P-2").build(),
            "BAT-004",
            another().put(Attributes.STUDY_INSTANCE_UID, "2.25.1099").build(),
            "BAT-005",
            another().put(Attributes.PATIENT_BIRTH_DATE, "19870413").build(),
            "BAT-006",
            another().put(Attributes.ACCESSION_NUMBER, "A-18").build(),
            "BAT-007",
            withPicture(another(), TinyJpeg.colour()),
            "BAT-008",
            withPicture(another().put(Attributes.PATIENT_ID, "P-2"), TinyJpeg.colour()),
            "BAT-009",
            another().put(Attributes.INSTANCE_NUMBER, "1").build());

    @TempDir
    Path folder;

    /** A second photograph of the same sitting, with nothing against it. */
    private static DataSet.Builder another() {
        return Photographs.withPixels(Photographs.good(), TinyJpeg.colour(0xC0, 32, 16)).toBuilder()
                .put(Attributes.ROWS, 32)
                .put(Attributes.SOP_INSTANCE_UID, "2.25.1004")
                .put(Attributes.INSTANCE_NUMBER, "2");
    }

    private static DataSet withPicture(DataSet.Builder builder, byte[] stream) {
        return Photographs.withPixels(builder.build(), stream);
    }

    static Stream<String> rules() {
        return EXAMPLES.keySet().stream().sorted();
    }

    private List<Finding> compared(DataSet second) throws IOException {
        RawWriter.write(folder.resolve("1.dcm"), Photographs.good(), Photographs.SYNTAX);
        RawWriter.write(folder.resolve("2.dcm"), second, Photographs.SYNTAX);
        List<ObjectReport> reports =
                Validator.standard().validate(List.of(folder)).objects();
        assertThat(reports.get(0).findings())
                .noneMatch(finding -> finding.rule().id().family() == RuleId.Family.BAT);
        return reports.get(1).findings().stream()
                .filter(finding -> finding.rule().id().family() == RuleId.Family.BAT)
                .toList();
    }

    @ParameterizedTest
    @MethodSource("rules")
    @DisplayName("break the rule that forbids it, and the finding names the other file and no person")
    void contradiction(String rule) throws IOException {
        List<Finding> findings = compared(EXAMPLES.get(rule));
        assertThat(findings).anySatisfy(finding -> {
            assertThat(finding.rule().id()).hasToString(rule);
            assertThat(finding.message()).contains("1.dcm").doesNotContain("Dvo", "P-1001", "1987");
        });
    }

    @Test
    @DisplayName("of one sitting contradict each other in nothing")
    void oneSitting() throws IOException {
        assertThat(compared(another().build())).isEmpty();
    }

    @Test
    @DisplayName("leave no trace in the next batch")
    void nextBatch() throws IOException {
        RawWriter.write(folder.resolve("1.dcm"), Photographs.good(), Photographs.SYNTAX);
        Validator validator = Validator.standard();
        Report first = validator.validate(List.of(folder));
        assertThat(validator.validate(List.of(folder))).isEqualTo(first);
    }
}
