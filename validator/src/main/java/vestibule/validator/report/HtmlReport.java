package vestibule.validator.report;

import java.io.IOException;
import java.util.Map;
import java.util.TreeMap;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.RuleId;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Verdict;

/**
 * The report to read in a browser or print: one page that needs no network, the sum first, then each object. Filters are plain form fields;
 * without scripts everything is shown.
 */
final class HtmlReport implements ReportWriter {

    private final Appendable target;
    private final ReportHeader header;
    private final LateBody body;
    private final Map<RuleId, Integer> counts = new TreeMap<>();
    private final Map<RuleId, String> requirements = new TreeMap<>();

    HtmlReport(Appendable target, ReportHeader header) throws IOException {
        this.target = target;
        this.header = header;
        this.body = new LateBody();
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        String verdict = object.verdict().word();
        String path = Markup.escape(object.path().map(Object::toString).orElse("(not written yet)"));
        boolean open = object.verdict() == Verdict.FAIL || object.verdict() == Verdict.UNREADABLE;
        body.append("<details class=\"object\" data-verdict=\"%s\"%s>\n".formatted(verdict, open ? " open" : ""));
        body.append("<summary><span class=\"verdict %s\">%s</span> %s</summary>\n".formatted(verdict, verdict, path));
        if (object.reason().isPresent()) {
            body.append("<p>" + Markup.escape(object.reason().get()) + "</p>\n");
        }
        if (!object.findings().isEmpty()) {
            table(object);
        } else if (object.reason().isEmpty()) {
            body.append("<p>Nothing was found.</p>\n");
        }
        for (Map.Entry<RuleId, Integer> more : object.notListed().entrySet()) {
            counts.merge(more.getKey(), more.getValue(), Integer::sum);
            body.append("<p>%d more of %s are not listed.</p>\n".formatted(more.getValue(), more.getKey()));
        }
        body.append("</details>\n");
    }

    private void table(ObjectReport object) throws IOException {
        body.append("<table><thead><tr><th scope=\"col\">Severity</th><th scope=\"col\">Rule</th>"
                + "<th scope=\"col\">What was found</th><th scope=\"col\">Clause</th>"
                + "<th scope=\"col\">What to do</th></tr></thead><tbody>\n");
        for (Finding finding : object.findings()) {
            counts.merge(finding.rule().id(), 1, Integer::sum);
            requirements.putIfAbsent(finding.rule().id(), finding.rule().requires());
            String severity = finding.severity().word();
            body.append(
                    "<tr data-severity=\"%s\"><td class=\"%s\">%s</td><td>%s</td><td>%s</td><td>%s</td><td>%s</td></tr>\n"
                            .formatted(
                                    severity,
                                    severity,
                                    severity,
                                    finding.rule().id(),
                                    Markup.escape(finding.line()),
                                    Markup.escape(finding.citation().toString()),
                                    Markup.escape(finding.rule().advice())));
        }
        body.append("</tbody></table>\n");
    }

    @Override
    public void end(Summary summary) throws IOException {
        target.append(HtmlPage.head(header));
        target.append("<h1>Report of the validator</h1>\n");
        target.append("<p>%s · %s · profile %s</p>\n"
                .formatted(
                        Markup.escape(header.program()),
                        Markup.escape(header.edition()),
                        Markup.escape(header.profile())));
        sum(summary);
        rules();
        target.append(HtmlPage.filters(summary, Severity.values()));
        target.append("<section aria-labelledby=\"objects\"><h2 id=\"objects\">Objects</h2>\n");
        body.copyTo(target);
        target.append("</section>\n</main>\n");
        target.append(HtmlPage.SCRIPT).append("</body>\n</html>\n");
    }

    private void sum(Summary summary) throws IOException {
        target.append("<table class=\"sum\"><caption>Objects by verdict</caption><thead><tr>"
                + "<th scope=\"col\">objects</th><th scope=\"col\">pass</th><th scope=\"col\">warn</th>"
                + "<th scope=\"col\">fail</th><th scope=\"col\">unreadable</th></tr></thead>\n");
        target.append("<tbody><tr><td>%d</td><td>%d</td><td>%d</td><td>%d</td><td>%d</td></tr></tbody></table>\n"
                .formatted(summary.objects(), summary.pass(), summary.warn(), summary.fail(), summary.unreadable()));
    }

    private void rules() throws IOException {
        if (counts.isEmpty()) {
            return;
        }
        target.append("<table class=\"sum\"><caption>Findings by rule</caption><thead><tr><th scope=\"col\">rule</th>"
                + "<th scope=\"col\">requires</th><th scope=\"col\">findings</th></tr></thead><tbody>\n");
        for (Map.Entry<RuleId, Integer> count : counts.entrySet()) {
            target.append("<tr><td>%s</td><td>%s</td><td>%d</td></tr>\n"
                    .formatted(
                            count.getKey(),
                            Markup.escape(requirements.getOrDefault(count.getKey(), "")),
                            count.getValue()));
        }
        target.append("</tbody></table>\n");
    }

    @Override
    public void close() throws IOException {
        body.close();
    }
}
