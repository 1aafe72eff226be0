package vestibule.validator.report;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import vestibule.validator.BatchReport;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Relevelling;
import vestibule.validator.ViewSet;
import vestibule.validator.Waived;
import vestibule.validator.Waiver;

/**
 * The report for spreadsheets (RFC 4180): one line a finding, one line an object without findings, and at the end one line for each
 * statement of the settings, which has neither path nor verdict. A cell that a spreadsheet would take for
 * a formula starts with an apostrophe.
 */
final class CsvReport implements ReportWriter {

    private final Appendable target;
    private final ReportHeader header;

    CsvReport(Appendable target, ReportHeader header) throws IOException {
        this.target = target;
        this.header = header;
        line(
                "path",
                "verdict",
                "rule",
                "severity",
                "confidence",
                "where",
                "message",
                "clause",
                "advice",
                "edition",
                "profile",
                "waived",
                "streams",
                "settings");
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        String verdict = object.verdict().word();
        if (object.findings().isEmpty() && object.waived().isEmpty()) {
            String reason = object.reason().orElse("");
            plain(object.name(), verdict, "", "", reason, "");
        }
        for (Finding finding : object.findings()) {
            line(object.name(), verdict, finding, "");
        }
        for (Waived waived : object.waived()) {
            line(
                    object.name(),
                    verdict,
                    waived.finding(),
                    "until " + waived.waiver().until() + ", because "
                            + waived.waiver().reason());
        }
    }

    private void line(String name, String verdict, Finding finding, String waived) throws IOException {
        line(
                name,
                verdict,
                finding.rule().id().toString(),
                finding.severity().word(),
                finding.rule().confidence().word(),
                finding.where().toString(),
                finding.message(),
                finding.citation().toString(),
                finding.rule().advice(),
                header.edition(),
                header.profile(),
                waived,
                header.streams(),
                "");
    }

    /** A table of rows has no place for a sum; what concerns the whole has rows without a path. */
    @Override
    public void end(BatchReport whole) throws IOException {
        for (Finding finding : whole.findings()) {
            line("", "", finding, "");
        }
        for (Relevelling one : header.relevellings()) {
            statement("count", one.rule().toString(), one.severity().word(), one.sentence());
        }
        for (Map.Entry<Waiver, String> entry : header.waivers(whole)) {
            Waiver waiver = entry.getKey();
            statement("waive", waiver.rule().toString(), "", entry.getValue() + ": " + waiver.sentence());
        }
        for (ViewSet set : header.sets()) {
            statement("set", "", "", set.sentence());
        }
    }

    private void statement(String word, String rule, String severity, String sentence) throws IOException {
        plain("", "", rule, severity, sentence, word);
    }

    /** A row that is no finding. */
    private void plain(String name, String verdict, String rule, String severity, String message, String statement)
            throws IOException {
        line(Stream.of(
                        List.of(name, verdict, rule, severity, "", "", message, "", ""),
                        List.of(header.edition(), header.profile(), "", header.streams(), statement))
                .flatMap(List::stream)
                .toArray(String[]::new));
    }

    private void line(String... cells) throws IOException {
        target.append(Arrays.stream(cells).map(CsvReport::cell).collect(Collectors.joining(",")))
                .append("\r\n");
    }

    private static String cell(String text) {
        boolean formula = !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0;
        String safe = formula ? "'" + text : text;
        boolean quoted = safe.chars().anyMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return quoted ? '"' + safe.replace("\"", "\"\"") + '"' : safe;
    }
}
