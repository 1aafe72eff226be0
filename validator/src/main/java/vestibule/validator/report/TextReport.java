package vestibule.validator.report;

import java.io.IOException;
import java.util.Locale;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Printable;
import vestibule.validator.Summary;

/** The report for people: one line a finding, advice below it, one line an object without findings. */
final class TextReport implements ReportWriter {

    private final Appendable target;

    TextReport(Appendable target, ReportHeader header) throws IOException {
        this.target = target;
        line("%s, %s, profile %s".formatted(header.program(), header.edition(), header.profile()));
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        String name = Printable.of(object.path().map(Object::toString).orElse("(not written yet)"));
        line("");
        line(name + "  " + object.verdict().word());
        if (object.reason().isPresent()) {
            line("    " + object.reason().get());
        }
        for (Finding finding : object.findings()) {
            line("    %-7s  %s  %s  [%s]"
                    .formatted(
                            finding.severity().word().toUpperCase(Locale.ROOT),
                            finding.rule().id(),
                            finding.line(),
                            finding.citation()));
            line("             → " + finding.rule().advice());
        }
        for (var more : object.notListed().entrySet()) {
            line("    and %d more of %s, which are not listed".formatted(more.getValue(), more.getKey()));
        }
    }

    @Override
    public void end(Summary summary) throws IOException {
        line("");
        line(summary.sentence());
    }

    private void line(String text) throws IOException {
        target.append(text).append('\n');
    }
}
