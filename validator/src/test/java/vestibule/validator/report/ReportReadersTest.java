package vestibule.validator.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Readers that we did not write: Python's json, csv and XML, and jsonschema for the forms. */
@DisplayName("A report, read by Python")
class ReportReadersTest {

    private static final Path PYTHON = Path.of("/usr/bin/python3");
    private static final Path SCHEMA = Path.of("../docs/report.schema.json");

    /** What stands in markup, in quotes and in spreadsheets, in one name. */
    private static final String ODD = "a \"b\", <c>&'\n;.dcm";

    @TempDir
    Path folder;

    private record Ended(int code, String output) {}

    @BeforeEach
    void pythonIsThere() throws IOException, InterruptedException {
        assumeTrue(
                Files.isExecutable(PYTHON)
                        && run(List.of("-c", "import jsonschema")).code() == 0,
                "python3-jsonschema is not installed");
    }

    private Ended run(List<String> arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(PYTHON.toString(), "-X", "utf8"));
        command.addAll(arguments);
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        process.getOutputStream().close();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return new Ended(process.waitFor(), output);
    }

    private Ended read(String format, String report) throws IOException, InterruptedException {
        Path script = folder.resolve("read.py");
        try (InputStream in = Objects.requireNonNull(ReportReadersTest.class.getResourceAsStream("read.py"))) {
            Files.write(script, in.readAllBytes());
        }
        Path file = Files.writeString(folder.resolve("report"), report);
        return run(List.of(script.toString(), format, file.toString(), SCHEMA.toString()));
    }

    private static String report(ReportFormat format) throws IOException {
        return ReportsTest.written(format, ReportsTest.failing(ODD), ReportsTest.unreadable("z.txt"));
    }

    @Test
    @DisplayName("JSON fits docs/report.schema.json and keeps every character of a name")
    void json() throws IOException, InterruptedException {
        String report = report(ReportFormat.JSON);
        assertThat(read("json", report)).isEqualTo(new Ended(0, """
                ["a \\"b\\", <c>&'\\n;.dcm", "fail", "MOD-008"]
                ["z.txt", "unreadable", ""]
                """));
        assertThat(read("json", report.replace("\"verdict\":\"fail\"", "\"verdict\":\"failed\""))
                        .code())
                .isEqualTo(1);
        assertThat(read("json", report.replace("\"reason\":\"no <object>\",", ""))
                        .code())
                .isEqualTo(1);
    }

    @Test
    @DisplayName("SARIF has the members that OASIS SARIF 2.1.0 requires, and each result points to its rule")
    void sarif() throws IOException, InterruptedException {
        String report = report(ReportFormat.SARIF);
        assertThat(read("sarif", report)).isEqualTo(new Ended(0, """
                ["./a%20%22b%22,%20%3Cc%3E&'%0A;.dcm", "error", "MOD-008"]
                ["./z.txt", "error", ""]
                """));
        assertThat(read("sarif", report.replace("\"version\":\"2.1.0\"", "\"version\":\"2.1\""))
                        .code())
                .isEqualTo(1);
        assertThat(read("sarif", report.replaceFirst("\"ruleIndex\":[0-9]+", "\"ruleIndex\":0"))
                        .output())
                .contains("ruleIndex of MOD-008 points to another rule");
    }

    @Test
    @DisplayName("CSV has as many fields in every row as in the first (RFC 4180, 2)")
    void csv() throws IOException, InterruptedException {
        Ended ended = read("csv", report(ReportFormat.CSV));
        assertThat(ended.code()).as(ended.output()).isZero();
        assertThat(ended.output().lines()).hasSize(2);
        assertThat(ended.output()).contains("<c>&'", "\"fail\", \"MOD-008\"]", "[\"z.txt\", \"unreadable\", \"\"]");
        assertThat(read("csv", report(ReportFormat.CSV) + "one,more\r\n").output())
                .contains("a row has 2 fields");
    }

    @Test
    @DisplayName("JUnit XML is well formed and its sums agree with what is listed")
    void junit() throws IOException, InterruptedException {
        String report = report(ReportFormat.JUNIT);
        Ended ended = read("junit", report);
        assertThat(ended.code()).as(ended.output()).isZero();
        assertThat(ended.output())
                .contains("<c>&'", "\"failure\", \"MOD-008\"]", "[\"z.txt\", \"error\", \"unreadable\"]");
        assertThat(read("junit", report.replace("failures=\"1\"", "failures=\"2\""))
                        .output())
                .contains("failures says 2, and there are 1");
    }
}
