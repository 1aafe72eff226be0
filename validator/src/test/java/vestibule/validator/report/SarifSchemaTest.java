package vestibule.validator.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** The schema is the one that OASIS published with SARIF 2.1.0, as it comes with a library of other people's. */
@DisplayName("A SARIF report against the published schema")
class SarifSchemaTest {

    private static Schema schema() throws IOException {
        try (InputStream in = Objects.requireNonNull(
                SarifSchemaTest.class.getClassLoader().getResourceAsStream("schema/sarif-schema-2.1.0.json"))) {
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_7)
                    .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8), InputFormat.JSON);
        }
    }

    private static List<?> problems(String report) throws IOException {
        return schema().validate(report, InputFormat.JSON);
    }

    @Test
    @DisplayName("fits it, whatever was found; and the schema notices what does not fit")
    void fits() throws IOException {
        String report = ReportsTest.written(
                ReportFormat.SARIF, ReportsTest.failing("a \"b\", <c>&'\n;.dcm"), ReportsTest.unreadable("z.txt"));
        assertThat(problems(report)).as(report).isEmpty();
        assertThat(problems(ReportsTest.written(ReportFormat.SARIF))).isEmpty();
        assertThat(problems(report.replace("\"version\":\"2.1.0\"", "\"version\":\"2.1\"")))
                .isNotEmpty();
        assertThat(problems(report.replace("\"level\":\"error\"", "\"level\":\"severe\"")))
                .isNotEmpty();
        assertThat(problems(report.replaceFirst("\"ruleIndex\":[0-9]+", "\"ruleIndex\":\"first\"")))
                .isNotEmpty();
    }
}
