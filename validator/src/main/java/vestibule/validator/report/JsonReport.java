package vestibule.validator.report;

import java.io.IOException;
import java.util.Map;
import vestibule.validator.BatchReport;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Relevelling;
import vestibule.validator.Summary;
import vestibule.validator.ViewSet;
import vestibule.validator.Waived;
import vestibule.validator.Waiver;

/** The report for programs: one JSON object of the published shape; one line an object. */
final class JsonReport implements ReportWriter {

    private final JsonText json;
    private final ReportHeader header;

    JsonReport(Appendable target, ReportHeader header) throws IOException {
        this.header = header;
        json = new JsonText(target);
        json.open('{').name("edition").value(header.edition());
        json.name("profile").value(header.profile());
        json.name("program").value(header.program());
        json.name("streams").value(header.streams());
        json.name("streamsLimit").value(header.limit());
        json.name("relevelled").open('[');
        for (Relevelling one : header.relevellings()) {
            json.open('{').name("rule").value(one.rule().toString());
            json.name("severity").value(one.severity().word());
            json.name("reason").value(one.reason()).close('}');
        }
        json.close(']').name("sets").open('[');
        for (ViewSet set : header.sets()) {
            json.open('{').name("name").value(set.name()).name("views").open('[');
            for (String view : set.views()) {
                json.value(view);
            }
            json.close(']').close('}');
        }
        json.close(']').name("objects").open('[');
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        json.open('{').name("path").value(object.name());
        json.name("verdict").value(object.verdict().word());
        if (object.reason().isPresent()) {
            json.name("reason").value(object.reason().get());
        }
        json.name("findings").open('[');
        for (Finding finding : object.findings()) {
            write(finding);
        }
        json.close(']');
        if (!object.waived().isEmpty()) {
            json.name("waived").open('[');
            for (Waived waived : object.waived()) {
                start(waived.finding());
                json.name("until").value(waived.waiver().until().toString());
                json.name("reason").value(waived.waiver().reason()).close('}').line();
            }
            json.close(']');
        }
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
        start(finding);
        json.close('}').line();
    }

    private void start(Finding finding) throws IOException {
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
    }

    @Override
    public void end(BatchReport whole) throws IOException {
        json.close(']').name("batch").open('{').name("findings").open('[');
        for (Finding finding : whole.findings()) {
            write(finding);
        }
        json.close(']').close('}').name("waivers").open('[');
        for (Map.Entry<Waiver, String> entry : header.waivers(whole)) {
            write(entry.getKey(), entry.getValue(), whole.waiverUses().getOrDefault(entry.getKey(), 0));
        }
        Summary summary = whole.summary();
        json.close(']').name("summary").open('{');
        json.name("objects").value(summary.objects());
        json.name("pass").value(summary.pass());
        json.name("warn").value(summary.warn());
        json.name("fail").value(summary.fail());
        json.name("unreadable").value(summary.unreadable());
        json.close('}').close('}').line();
    }

    private void write(Waiver waiver, String state, int uses) throws IOException {
        json.open('{').name("rule").value(waiver.rule().toString());
        json.name("in").value(waiver.place());
        json.name("until").value(waiver.until().toString());
        json.name("reason").value(waiver.reason());
        json.name("state").value(state.equals("expired") ? state : "in force");
        json.name("uses").value(uses).close('}').line();
    }
}
