package vestibule.validator.report;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import vestibule.validator.BatchReport;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.RuleId;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Verdict;
import vestibule.validator.Waived;
import vestibule.validator.Waiver;

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
        String path = Markup.escape(object.name());
        boolean open = object.verdict() == Verdict.FAIL || object.verdict() == Verdict.UNREADABLE;
        body.append("<details class=\"object\" data-verdict=\"%s\"%s>\n".formatted(verdict, open ? " open" : ""));
        body.append("<summary><span class=\"verdict %s\">%s</span> %s</summary>\n".formatted(verdict, verdict, path));
        Optional<String> reason = object.reason();
        Optional<String> thumbnail = object.thumbnail();
        if (reason.isPresent()) {
            body.append("<p>" + Markup.escape(reason.get()) + "</p>\n");
        }
        if (thumbnail.isPresent()) {
            body.append("<p><img src=\"%s\" alt=\"the photograph in %s, made small\"></p>\n"
                    .formatted(Markup.escape(thumbnail.get()), path));
        }
        if (!object.findings().isEmpty()) {
            body.append(table(object.findings()));
        } else if (reason.isEmpty()) {
            body.append("<p>Nothing was found.</p>\n");
        }
        for (Map.Entry<RuleId, Integer> more : object.notListed().entrySet()) {
            counts.merge(more.getKey(), more.getValue(), Integer::sum);
            body.append("<p>%d more of %s are not listed.</p>\n".formatted(more.getValue(), more.getKey()));
        }
        if (!object.waived().isEmpty()) {
            waived(object.waived());
        }
        body.append("</details>\n");
    }

    private void waived(List<Waived> all) throws IOException {
        body.append("<table><caption>Waived, and not counted</caption><thead><tr><th scope=\"col\">Rule</th>"
                + "<th scope=\"col\">What was found</th><th scope=\"col\">Until</th>"
                + "<th scope=\"col\">Because</th></tr></thead><tbody>\n");
        for (Waived waived : all) {
            body.append("<tr><td>%s</td><td>%s</td><td>%s</td><td>%s</td></tr>\n"
                    .formatted(
                            waived.finding().rule().id(),
                            Markup.escape(waived.finding().line()),
                            waived.waiver().until(),
                            Markup.escape(waived.waiver().reason())));
        }
        body.append("</tbody></table>\n");
    }

    private String table(List<Finding> findings) {
        StringBuilder table = new StringBuilder(
                "<table class=\"findings\"><thead><tr><th scope=\"col\">Severity</th><th scope=\"col\">Rule</th>"
                        + "<th scope=\"col\">What was found</th><th scope=\"col\">Clause</th>"
                        + "<th scope=\"col\">What to do</th></tr></thead><tbody>\n");
        for (Finding finding : findings) {
            counts.merge(finding.rule().id(), 1, Integer::sum);
            requirements.putIfAbsent(finding.rule().id(), finding.rule().requires());
            String severity = finding.severity().word();
            table.append(
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
        return table.append("</tbody></table>\n").toString();
    }

    @Override
    public void end(BatchReport whole) throws IOException {
        String batch = whole.findings().isEmpty() ? "" : table(whole.findings());
        target.append(HtmlPage.head(header));
        target.append("<h1>Report of the validator</h1>\n");
        target.append("<p>%s · %s · profile %s · streams read to their %s · %s</p>\n"
                .formatted(
                        Markup.escape(header.program()),
                        Markup.escape(header.edition()),
                        Markup.escape(header.profile()),
                        Markup.escape(header.streams()),
                        header.today()));
        if (!header.limit().isEmpty()) {
            target.append("<p>Streams: %s.</p>\n".formatted(Markup.escape(header.limit())));
        }
        sum(whole.summary());
        rules();
        settings(whole);
        target.append(HtmlPage.filters(whole.summary(), Severity.values()));
        if (!batch.isEmpty()) {
            target.append("<section aria-labelledby=\"whole\"><h2 id=\"whole\">The batch as a whole</h2>\n")
                    .append(batch)
                    .append("</section>\n");
        }
        target.append("<section aria-labelledby=\"objects\"><h2 id=\"objects\">Objects</h2>\n");
        body.copyTo(target);
        target.append("</section>\n</main>\n");
        target.append(HtmlPage.SCRIPT).append("</body>\n</html>\n");
    }

    private void settings(BatchReport whole) throws IOException {
        if (whole.waiverUses().isEmpty()
                && header.relevellings().isEmpty()
                && header.sets().isEmpty()) {
            return;
        }
        target.append("<section aria-labelledby=\"settings\"><h2 id=\"settings\">Settings</h2>\n<ul>\n");
        for (var one : header.relevellings()) {
            target.append("<li>" + Markup.escape(one.sentence()) + "</li>\n");
        }
        for (var set : header.sets()) {
            target.append("<li>" + Markup.escape(set.sentence()) + "</li>\n");
        }
        for (Map.Entry<Waiver, String> entry : header.waivers(whole)) {
            target.append("<li>Waiver %s: %s</li>\n"
                    .formatted(
                            Markup.escape(entry.getValue()),
                            Markup.escape(entry.getKey().sentence())));
        }
        target.append("</ul>\n</section>\n");
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
