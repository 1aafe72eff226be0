package vestibule.validator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.BatchReport;
import vestibule.validator.Citation;
import vestibule.validator.Finding;
import vestibule.validator.Location;
import vestibule.validator.ObjectReport;
import vestibule.validator.Rule;
import vestibule.validator.RuleId;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Validator;
import vestibule.validator.Verdict;

@DisplayName("A report")
class ReportsTest {

    private static final ReportHeader HEADER = new ReportHeader(
            "checker 1", "DICOM 2024c (PS3.3)", "standard", "markers", List.of(), List.of(), LocalDate.of(2026, 3, 4));

    static ObjectReport failing(String path) {
        Rule rule = Validator.rules().stream()
                .filter(one -> one.id().toString().equals("MOD-008"))
                .findFirst()
                .orElseThrow();
        Finding finding = new Finding(
                rule,
                Severity.ERROR,
                Location.of(Attributes.PATIENT_SEX),
                Citation.of("PS3.3 C.7.1.1"),
                Map.of("attribute", "PatientSex", "value", "<x>&\"'", "values", "M, F, O"));
        return new ObjectReport(
                Optional.of(Path.of(path)),
                path,
                Verdict.FAIL,
                List.of(finding),
                List.of(),
                Map.of(RuleId.parse("MOD-008"), 7),
                Optional.empty(),
                Optional.empty());
    }

    static ObjectReport unreadable(String path) {
        return new ObjectReport(
                Optional.of(Path.of(path)),
                path,
                Verdict.UNREADABLE,
                List.of(),
                List.of(),
                Map.of(),
                Optional.of("no <object>"),
                Optional.empty());
    }

    static String written(ReportFormat format, ObjectReport... objects) throws IOException {
        StringBuilder text = new StringBuilder();
        try (ReportWriter writer = format.writer(text, HEADER)) {
            Summary summary = Summary.NONE;
            for (ObjectReport object : objects) {
                writer.object(object);
                summary = summary.with(object.verdict());
            }
            writer.end(new BatchReport(summary, List.of(), Map.of()));
        }
        return text.toString();
    }

    @ParameterizedTest
    @EnumSource(ReportFormat.class)
    @DisplayName("names its edition and profile, and is the same every time")
    void everyFormat(ReportFormat format) throws IOException {
        String report = written(format, failing("b.dcm"), unreadable("a.txt"));
        assertThat(report)
                .contains("DICOM 2024c (PS3.3)", "standard", "MOD-008", "b.dcm", "a.txt", "PS3.3 C.7.1.1")
                .isEqualTo(written(format, failing("b.dcm"), unreadable("a.txt")));
        assertThat(report.indexOf("b.dcm")).isLessThan(report.indexOf("a.txt"));
    }

    @Test
    @DisplayName("as text says the finding in one line, the advice below it, and what is not listed")
    void text() throws IOException {
        assertThat(written(ReportFormat.TEXT, failing("bad\u001B[2J\nname.dcm")))
                .isEqualTo("""
                        checker 1, DICOM 2024c (PS3.3), profile standard
                        streams: markers only; coded data is not decoded, so a picture that is cut short or damaged in it passes

                        bad\\u001B[2J\\u000Aname.dcm  fail
                            ERROR    MOD-008  (0010,0040) PatientSex is "<x>&"'", and the only values are M, F, O  \
                        [PS3.3 C.7.1.1]
                                     → Use one of the values of the list.
                            and 7 more of MOD-008, which are not listed

                        1 object: 0 pass, 0 warn, 1 fail, 0 unreadable
                        """);
    }

    @Test
    @DisplayName("as JSON escapes what JSON must")
    void json() throws IOException {
        assertThat(written(ReportFormat.JSON, failing("a\"b\\c.dcm")))
                .contains("\"path\":\"a\\\"b\\\\c.dcm\"")
                .contains("\"notListed\":{\"MOD-008\":7}")
                .contains("\"where\":\"(0010,0040) PatientSex\"")
                .endsWith("\"summary\":{\"objects\":1,\"pass\":0,\"warn\":0,\"fail\":1,\"unreadable\":0}}\n");
    }

    @Test
    @DisplayName("as CSV quotes, and keeps a spreadsheet from running what a file name says")
    void csv() throws IOException {
        assertThat(written(ReportFormat.CSV, unreadable("=cmd,1.txt")))
                .contains(
                        "\r\n\"'=cmd,1.txt\",unreadable,,,,,no <object>,,,DICOM 2024c (PS3.3),standard,,markers,\r\n");
    }

    @Test
    @DisplayName("as HTML is one page without network, the sum first, foreign text escaped")
    void html() throws IOException {
        String page = written(ReportFormat.HTML, failing("<b>.dcm"), unreadable("a.txt"));
        assertThat(page)
                .startsWith("<!DOCTYPE html>\n<html lang=\"en\">")
                .contains("default-src 'none'", "&lt;b&gt;.dcm", "&lt;x&gt;&amp;&quot;&#39;", "no &lt;object&gt;")
                .contains("<tbody><tr><td>2</td><td>0</td><td>0</td><td>1</td><td>1</td></tr></tbody>")
                .contains("<tr><td>MOD-008</td>")
                .doesNotContain("<b>", "<x>", "http:", "https:", "src=");
        assertThat(page).contains(">2 objects are shown<");
        assertThat(written(ReportFormat.HTML, unreadable("a.txt"))).contains(">1 object is shown<");
        assertThat(page.indexOf("Objects by verdict")).isLessThan(page.indexOf("&lt;b&gt;.dcm"));
    }

    @Test
    @DisplayName("as SARIF refers to its rules by place and to files by reference")
    void sarif() throws IOException {
        int index = Validator.rules().stream()
                .map(rule -> rule.id().toString())
                .toList()
                .indexOf("MOD-008");
        assertThat(written(ReportFormat.SARIF, failing("a b#1.dcm")))
                .contains("\"version\":\"2.1.0\"")
                .contains("{\"ruleId\":\"MOD-008\",\"ruleIndex\":" + index + ",\"level\":\"error\"")
                .contains("\"artifactLocation\":{\"uri\":\"./a%20b%231.dcm\"}");
    }

    @Test
    @DisplayName("as JUnit counts failures and errors before it lists them")
    void junit() throws IOException {
        assertThat(written(ReportFormat.JUNIT, failing("x&y.dcm"), unreadable("a.txt")))
                .startsWith("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuite name=\"checker 1\" tests=\"2\""
                        + " failures=\"1\" errors=\"1\" skipped=\"0\"")
                .contains("<testcase classname=\"vestibule-validator\" name=\"x&amp;y.dcm\"")
                .contains("<failure type=\"MOD-008\" message=\"1 error: (0010,0040) PatientSex is")
                .contains("<error type=\"unreadable\" message=\"no &lt;object&gt;\"/>")
                .endsWith("</testsuite>\n");
    }
}
