package vestibule.validator.report;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import vestibule.validator.BatchReport;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Verdict;
import vestibule.validator.Waiver;

/** The report for build servers: each object is a test case, its errors are one failure, an unreadable file is an error. */
final class JunitReport implements ReportWriter {

    private final Appendable target;
    private final ReportHeader header;
    private final LateBody body;

    JunitReport(Appendable target, ReportHeader header) throws IOException {
        this.target = target;
        this.header = header;
        this.body = new LateBody();
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        List<Finding> others = object.findings().stream()
                .filter(finding -> finding.severity() != Severity.ERROR)
                .toList();
        String waived = object.waived().stream()
                .map(one -> "waived until %s, because %s: %s %s"
                        .formatted(
                                one.waiver().until(),
                                one.waiver().reason(),
                                one.finding().rule().id(),
                                one.finding().line()))
                .map(Markup::escape)
                .collect(Collectors.joining("\n"));
        open(object.name());
        if (object.verdict() == Verdict.UNREADABLE) {
            body.append("    <error type=\"unreadable\" message=\""
                    + Markup.escape(object.reason().orElse("")) + "\"/>\n");
        }
        close(object.errors(), others, waived);
    }

    private void open(String name) throws IOException {
        body.append("  <testcase classname=\"vestibule-validator\" name=\"" + Markup.escape(name) + "\" time=\"0\">\n");
    }

    private void close(List<Finding> errors, List<Finding> others, String waived) throws IOException {
        if (!errors.isEmpty()) {
            String type = errors.get(0).rule().id().toString();
            String message = Markup.escape(errors.size()
                    + (errors.size() == 1 ? " error: " : " errors; the first: ")
                    + errors.get(0).line());
            body.append(
                    "    <failure type=\"" + type + "\" message=\"" + message + "\">" + lines(errors) + "</failure>\n");
        }
        if (!others.isEmpty() || !waived.isEmpty()) {
            String parting = others.isEmpty() || waived.isEmpty() ? "" : "\n";
            body.append("    <system-out>" + lines(others) + parting + waived + "</system-out>\n");
        }
        body.append("  </testcase>\n");
    }

    private static String lines(List<Finding> findings) {
        return findings.stream()
                .map(finding -> Markup.escape("%s %s %s [%s] %s"
                        .formatted(
                                finding.severity().word(),
                                finding.rule().id(),
                                finding.line(),
                                finding.citation(),
                                finding.rule().advice())))
                .collect(Collectors.joining("\n"));
    }

    /** What concerns the whole is one more test case, so that its errors are failures too. */
    @Override
    public void end(BatchReport whole) throws IOException {
        List<Finding> errors = whole.findings().stream()
                .filter(finding -> finding.severity() == Severity.ERROR)
                .toList();
        int more = whole.findings().isEmpty() ? 0 : 1;
        if (more == 1) {
            open("the batch as a whole");
            close(
                    errors,
                    whole.findings().stream()
                            .filter(finding -> finding.severity() != Severity.ERROR)
                            .toList(),
                    "");
        }
        Summary summary = whole.summary();
        target.append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        target.append("<testsuite name=\"%s\" tests=\"%d\" failures=\"%d\" errors=\"%d\" skipped=\"0\" time=\"0\">\n"
                .formatted(
                        Markup.escape(header.program()),
                        summary.objects() + more,
                        summary.fail() + (errors.isEmpty() ? 0 : 1),
                        summary.unreadable()));
        target.append("  <properties>\n");
        property("edition", header.edition());
        property("profile", header.profile());
        property("streams", header.streams());
        property("streamsLimit", header.limit());
        for (var one : header.relevellings()) {
            property("relevelled", one.sentence());
        }
        for (var set : header.sets()) {
            property("set", set.sentence());
        }
        for (Map.Entry<Waiver, String> entry : header.waivers(whole)) {
            property("waiver", entry.getValue() + ": " + entry.getKey().sentence());
        }
        target.append("  </properties>\n");
        body.copyTo(target);
        target.append("</testsuite>\n");
    }

    private void property(String name, String value) throws IOException {
        target.append("    <property name=\"%s\" value=\"%s\"/>\n".formatted(name, Markup.escape(value)));
    }

    @Override
    public void close() throws IOException {
        body.close();
    }
}
