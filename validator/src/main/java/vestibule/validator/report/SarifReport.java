package vestibule.validator.report;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Validator;

/** The report for tools that gather findings (SARIF 2.1.0): rules first, then one result a finding. */
final class SarifReport implements ReportWriter {

    private static final String SCHEMA =
            "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    private final JsonText json;
    private final List<Rule> rules = Validator.rules();

    SarifReport(Appendable target, ReportHeader header) throws IOException {
        json = new JsonText(target);
        json.open('{').name("$schema").value(SCHEMA).name("version").value("2.1.0");
        json.name("runs").open('[').open('{');
        json.name("tool").open('{').name("driver").open('{');
        json.name("name").value("vestibule-validator");
        json.name("fullName").value(header.program());
        json.name("rules").open('[');
        for (Rule rule : rules) {
            write(rule);
        }
        json.close(']').close('}').close('}').line();
        json.name("properties").open('{').name("edition").value(header.edition());
        json.name("profile").value(header.profile()).close('}');
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
        if (object.reason().isPresent()) {
            json.open('{').name("level").value("error");
            text("message", object.reason().get());
            place(object, "file");
            json.close('}').line();
        }
        for (Finding finding : object.findings()) {
            json.open('{').name("ruleId").value(finding.rule().id().toString());
            json.name("ruleIndex").value(rules.indexOf(finding.rule()));
            json.name("level").value(level(finding.severity()));
            text("message", finding.message() + ". " + finding.rule().advice());
            place(object, finding.where().toString());
            json.name("properties")
                    .open('{')
                    .name("clause")
                    .value(finding.citation().toString());
            json.name("confidence").value(finding.rule().confidence().word()).close('}');
            json.close('}').line();
        }
    }

    private void place(ObjectReport object, String where) throws IOException {
        json.name("locations").open('[').open('{');
        if (object.path().isPresent()) {
            json.name("physicalLocation").open('{').name("artifactLocation").open('{');
            json.name("uri").value(reference(object.path().get())).close('}').close('}');
        }
        json.name("logicalLocations").open('[').open('{');
        json.name("fullyQualifiedName").value(where).close('}').close(']');
        json.close('}').close(']');
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
    public void end(Summary summary) throws IOException {
        json.close(']').close('}').close(']').close('}').line();
    }
}
