package vestibule.validator.report;

import java.io.IOException;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import vestibule.validator.BatchReport;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Printable;
import vestibule.validator.Relevelling;
import vestibule.validator.ViewSet;
import vestibule.validator.Waived;
import vestibule.validator.Waiver;

/** The report for people: one line a finding, advice below it, one line an object without findings. */
final class TextReport implements ReportWriter {

    private final Appendable target;
    private final ReportHeader header;

    TextReport(Appendable target, ReportHeader header) throws IOException {
        this.target = target;
        this.header = header;
        line("%s, %s, profile %s".formatted(header.program(), header.edition(), header.profile()));
        if (!header.limit().isEmpty()) {
            line("streams: " + header.limit());
        }
        for (Relevelling one : header.relevellings()) {
            line("settings: " + one.sentence());
        }
        for (ViewSet set : header.sets()) {
            line("settings: " + set.sentence());
        }
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        line("");
        line(Printable.of(object.name()) + "  " + object.verdict().word());
        Optional<String> reason = object.reason();
        if (reason.isPresent()) {
            line("    " + reason.get());
        }
        for (Finding finding : object.findings()) {
            write(finding);
        }
        for (Map.Entry<?, Integer> more : object.notListed().entrySet()) {
            line("    and %d more of %s, which are not listed".formatted(more.getValue(), more.getKey()));
        }
        for (Waived waived : object.waived()) {
            Finding finding = waived.finding();
            line("    waived   %s  %s  [%s]".formatted(finding.rule().id(), finding.line(), finding.citation()));
            line("             → until %s, because %s"
                    .formatted(waived.waiver().until(), waived.waiver().reason()));
        }
    }

    private void write(Finding finding) throws IOException {
        line("    %-7s  %s  %s  [%s]"
                .formatted(
                        finding.severity().word().toUpperCase(Locale.ROOT),
                        finding.rule().id(),
                        finding.line(),
                        finding.citation()));
        line("             → " + finding.rule().advice());
    }

    @Override
    public void end(BatchReport whole) throws IOException {
        if (!whole.findings().isEmpty()) {
            line("");
            line("the batch as a whole");
            for (Finding finding : whole.findings()) {
                write(finding);
            }
        }
        if (!whole.waiverUses().isEmpty()) {
            line("");
            line("waivers");
            for (Map.Entry<Waiver, String> entry : header.waivers(whole)) {
                line("    %s: %s".formatted(entry.getValue(), entry.getKey().sentence()));
            }
        }
        line("");
        line(whole.summary().sentence());
        if (whole.sentenceOfWhole().isPresent()) {
            line(whole.sentenceOfWhole().get());
        }
    }

    private void line(String text) throws IOException {
        target.append(text).append('\n');
    }
}
