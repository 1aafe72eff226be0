package vestibule.validator.report;

import java.io.IOException;
import java.util.List;
import java.util.stream.Collectors;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Verdict;

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
        String name = Markup.escape(object.path().map(Object::toString).orElse("(not written yet)"));
        body.append("  <testcase classname=\"vestibule-validator\" name=\"" + name + "\" time=\"0\">\n");
        if (object.verdict() == Verdict.UNREADABLE) {
            body.append("    <error type=\"unreadable\" message=\""
                    + Markup.escape(object.reason().orElse("")) + "\"/>\n");
        }
        List<Finding> errors = object.errors();
        if (!errors.isEmpty()) {
            String type = errors.get(0).rule().id().toString();
            String message = Markup.escape(
                    errors.size() + " errors; the first: " + errors.get(0).line());
            body.append(
                    "    <failure type=\"" + type + "\" message=\"" + message + "\">" + lines(errors) + "</failure>\n");
        }
        List<Finding> others = object.findings().stream()
                .filter(finding -> finding.severity() != Severity.ERROR)
                .toList();
        if (!others.isEmpty()) {
            body.append("    <system-out>" + lines(others) + "</system-out>\n");
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

    @Override
    public void end(Summary summary) throws IOException {
        target.append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        target.append("<testsuite name=\"%s\" tests=\"%d\" failures=\"%d\" errors=\"%d\" skipped=\"0\" time=\"0\">\n"
                .formatted(Markup.escape(header.program()), summary.objects(), summary.fail(), summary.unreadable()));
        target.append("  <properties>\n");
        target.append("    <property name=\"edition\" value=\"%s\"/>\n".formatted(Markup.escape(header.edition())));
        target.append("    <property name=\"profile\" value=\"%s\"/>\n".formatted(Markup.escape(header.profile())));
        target.append("  </properties>\n");
        body.copyTo(target);
        target.append("</testsuite>\n");
    }

    @Override
    public void close() throws IOException {
        body.close();
    }
}
