package vestibule.validator.report;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.validator.BatchReport;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Rule;
import vestibule.validator.RuleId;
import vestibule.validator.Severity;
import vestibule.validator.Validator;
import vestibule.validator.Waived;
import vestibule.validator.Waiver;

/** The report for tools that gather findings (SARIF 2.1.0): rules first, then one result a finding. */
final class SarifReport implements ReportWriter {

    private static final String SCHEMA =
            "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    private final JsonText json;
    private final ReportHeader header;
    private final List<Rule> rules = Validator.rules();
    private final Map<RuleId, Integer> indexes = new HashMap<>();

    SarifReport(Appendable target, ReportHeader header) throws IOException {
        this.header = header;
        json = new JsonText(target);
        json.open('{').name("$schema").value(SCHEMA).name("version").value("2.1.0");
        json.name("runs").open('[').open('{');
        json.name("tool").open('{').name("driver").open('{');
        json.name("name").value("vestibule-validator");
        json.name("fullName").value(header.program());
        json.name("rules").open('[');
        for (Rule rule : rules) {
            indexes.put(rule.id(), indexes.size());
            write(rule);
        }
        json.close(']').close('}').close('}').line();
        json.name("results").open('[');
    }

    private void write(Rule rule) throws IOException {
        json.open('{').name("id").value(rule.id().toString());
        text("shortDescription", rule.requires());
        text("fullDescription", rule.requires() + " (" + rule.citation() + ")");
        text("help", rule.advice());
        json.name("defaultConfiguration")
                .open('{')
                .name("level")
                .value(level(rule.severity()))
                .close('}');
        json.close('}').line();
    }

    private void text(String name, String text) throws IOException {
        json.name(name).open('{').name("text").value(text).close('}');
    }

    private static String level(Severity severity) {
        return severity.word();
    }

    @Override
    public void object(ObjectReport object) throws IOException {
        Optional<String> reason = object.reason();
        if (reason.isPresent()) {
            json.open('{').name("level").value("error");
            text("message", reason.get());
            place(object, "file");
            json.close('}').line();
        }
        for (Finding finding : object.findings()) {
            start(finding);
            place(object, finding.where().toString());
            json.close('}').line();
        }
        for (Waived waived : object.waived()) {
            start(waived.finding());
            place(object, waived.finding().where().toString());
            json.name("suppressions").open('[').open('{').name("kind").value("external");
            json.name("justification")
                    .value("until %s, because %s"
                            .formatted(waived.waiver().until(), waived.waiver().reason()));
            json.close('}').close(']').close('}').line();
        }
    }

    private void start(Finding finding) throws IOException {
        json.open('{').name("ruleId").value(finding.rule().id().toString());
        json.name("ruleIndex").value(indexes.getOrDefault(finding.rule().id(), 0));
        json.name("level").value(level(finding.severity()));
        text("message", finding.message() + ". " + finding.rule().advice());
        json.name("properties")
                .open('{')
                .name("clause")
                .value(finding.citation().toString());
        json.name("confidence").value(finding.rule().confidence().word()).close('}');
    }

    private void place(ObjectReport object, String where) throws IOException {
        json.name("locations").open('[').open('{');
        if (object.path().isPresent()) {
            json.name("physicalLocation").open('{').name("artifactLocation").open('{');
            json.name("uri").value(reference(object.path().get())).close('}').close('}');
        }
        json.name("logicalLocations").open('[');
        json.open('{').name("fullyQualifiedName").value(where).close('}');
        if (!object.path().map(Path::toString).equals(Optional.of(object.name()))) {
            // the entry of a ZIP file, or an object that came over the network
            json.open('{').name("fullyQualifiedName").value(object.name()).close('}');
        }
        json.close(']').close('}').close(']');
    }

    /** The path as a URI reference (RFC 3986), relative where the path is. */
    private static String reference(Path path) {
        if (path.isAbsolute()) {
            return path.toUri().toASCIIString();
        }
        List<String> names = new ArrayList<>();
        path.forEach(name -> names.add(name.toString()));
        try {
            // "./" keeps a colon in the first name from looking like a scheme
            return new URI(null, null, "./" + String.join("/", names), null).toASCIIString();
        } catch (URISyntaxException e) {
            return path.toUri().toASCIIString();
        }
    }

    @Override
    public void end(BatchReport whole) throws IOException {
        for (Finding finding : whole.findings()) {
            start(finding);
            json.name("locations")
                    .open('[')
                    .open('{')
                    .name("logicalLocations")
                    .open('[')
                    .open('{');
            json.name("fullyQualifiedName").value(finding.where().toString());
            json.close('}').close(']').close('}').close(']').close('}').line();
        }
        json.close(']').name("properties").open('{').name("edition").value(header.edition());
        json.name("profile").value(header.profile());
        json.name("streams").value(header.streams());
        json.name("streamsLimit").value(header.limit());
        json.name("waivers").open('[');
        for (Map.Entry<Waiver, String> entry : header.waivers(whole)) {
            json.value(entry.getValue() + ": " + entry.getKey().sentence());
        }
        json.close(']').name("relevelled").open('[');
        for (var one : header.relevellings()) {
            json.value(one.sentence());
        }
        json.close(']').name("sets").open('[');
        for (var set : header.sets()) {
            json.value(set.sentence());
        }
        json.close(']').close('}').close('}').close(']').close('}').line();
    }
}
