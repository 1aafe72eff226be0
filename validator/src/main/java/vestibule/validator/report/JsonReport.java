package vestibule.validator.report;

import java.io.IOException;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Summary;

/** The report for programs: one JSON object of the published shape; one line an object. */
final class JsonReport implements ReportWriter {

    private final JsonText json;

    JsonReport(Appendable target, ReportHeader header) throws IOException {
        json = new JsonText(target);
        json.open('{').name("edition").value(header.edition());
        json.name("profile").value(header.profile());
        json.name("program").value(header.program());
        json.name("objects").open('[');
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        json.open('{').name("path").value(object.path().map(Object::toString).orElse(""));
        json.name("verdict").value(object.verdict().word());
        if (object.reason().isPresent()) {
            json.name("reason").value(object.reason().get());
        }
        json.name("findings").open('[');
        for (Finding finding : object.findings()) {
            write(finding);
        }
        json.close(']');
        if (!object.notListed().isEmpty()) {
            json.name("notListed").open('{');
            for (var more : object.notListed().entrySet()) {
                json.name(more.getKey().toString()).value(more.getValue());
            }
            json.close('}');
        }
        json.close('}').line();
    }

    private void write(Finding finding) throws IOException {
        json.open('{').name("rule").value(finding.rule().id().toString());
        json.name("severity").value(finding.severity().word());
        json.name("confidence").value(finding.rule().confidence().word());
        json.name("where").value(finding.where().toString());
        if (finding.where().offset().isPresent()) {
            json.name("offset").value(finding.where().offset().getAsLong());
        }
        json.name("message").value(finding.message());
        json.name("clause").value(finding.citation().toString());
        json.name("advice").value(finding.rule().advice());
        json.close('}').line();
    }

    @Override
    public void end(Summary summary) throws IOException {
        json.close(']').name("summary").open('{');
        json.name("objects").value(summary.objects());
        json.name("pass").value(summary.pass());
        json.name("warn").value(summary.warn());
        json.name("fail").value(summary.fail());
        json.name("unreadable").value(summary.unreadable());
        json.close('}').close('}').line();
    }
}
