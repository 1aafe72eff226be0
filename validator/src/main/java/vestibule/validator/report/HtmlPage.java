package vestibule.validator.report;

import java.util.Arrays;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import vestibule.validator.Severity;
import vestibule.validator.Summary;
import vestibule.validator.Verdict;

/** The parts of the HTML report that do not depend on its objects. */
final class HtmlPage {

    /** Hides what the filters leave out, and says how many objects are left; on paper everything shown is open. */
    static final String SCRIPT = """
            <script>
            (function () {
              var form = document.getElementById('filters');
              form.hidden = false;
              function apply() {
                var chosen = {};
                form.querySelectorAll('input[type=checkbox]').forEach(function (box) { chosen[box.value] = box.checked; });
                var words = form.querySelector('input[type=search]').value.toLowerCase();
                var shown = 0;
                document.querySelectorAll('tr[data-severity]').forEach(function (row) {
                  row.hidden = !chosen[row.dataset.severity];
                });
                document.querySelectorAll('.object').forEach(function (object) {
                  var fits = chosen[object.dataset.verdict]
                      && (!words || object.textContent.toLowerCase().indexOf(words) >= 0);
                  object.hidden = !fits;
                  shown += fits ? 1 : 0;
                });
                document.getElementById('shown').textContent = shown + (shown === 1 ? ' object is shown' : ' objects are shown');
              }
              form.addEventListener('input', apply);
              form.addEventListener('submit', function (event) { event.preventDefault(); });
              var opened = [];
              window.addEventListener('beforeprint', function () {
                document.querySelectorAll('details:not([open])').forEach(function (closed) {
                  closed.open = true;
                  opened.push(closed);
                });
              });
              window.addEventListener('afterprint', function () {
                opened.forEach(function (one) { one.open = false; });
                opened = [];
              });
              apply();
            }());
            </script>
            """;

    private static final String STYLE = """
            body { font: 16px/1.5 sans-serif; color: #1a1a1a; background: #fff; margin: 0; }
            main { max-width: 75rem; margin: 0 auto; padding: 1rem; }
            table { border-collapse: collapse; margin: 0.5rem 0 1rem; }
            caption { text-align: left; font-weight: bold; padding: 0.25rem 0; }
            th, td { border: 1px solid #767676; padding: 0.25rem 0.5rem; text-align: left; vertical-align: top; }
            th { background: #eee; }
            details { border-top: 1px solid #767676; padding: 0.25rem 0; }
            summary { cursor: pointer; overflow-wrap: anywhere; }
            td { overflow-wrap: anywhere; }
            .verdict { display: inline-block; min-width: 6.5rem; font-weight: bold; }
            .error, .fail, .unreadable { color: #a40000; font-weight: bold; }
            .warning, .warn { color: #7a4d00; font-weight: bold; }
            .pass { color: #0b5a0b; }
            fieldset { border: 1px solid #767676; margin: 0 0 0.5rem; }
            label { margin-right: 1rem; }
            :focus-visible { outline: 3px solid #0b57d0; outline-offset: 2px; }
            @media print { #filters { display: none; } details { break-inside: avoid; } }
            """;

    private HtmlPage() {}

    static String head(ReportHeader header) {
        return """
                <!DOCTYPE html>
                <html lang="en">
                <head>
                <meta charset="UTF-8">
                <meta name="viewport" content="width=device-width, initial-scale=1">
                <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; \
                script-src 'unsafe-inline'; img-src data:; form-action 'none'; base-uri 'none'">
                <title>Report of the validator, %s, profile %s</title>
                <style>
                %s</style>
                </head>
                <body>
                <main>
                """.formatted(Markup.escape(header.edition()), Markup.escape(header.profile()), STYLE);
    }

    static String filters(Summary summary, Severity... severities) {
        return """
                <form id="filters" hidden>
                <fieldset><legend>Verdicts to show</legend>
                %s
                </fieldset>
                <fieldset><legend>Findings to show</legend>
                %s
                </fieldset>
                <p><label>Words to look for <input type="search"></label>
                <output id="shown" aria-live="polite">%s shown</output></p>
                </form>
                """.formatted(
                        boxes(Arrays.stream(Verdict.values()).map(Verdict::word)),
                        boxes(Arrays.stream(severities).map(Severity::word)),
                        summary.objects() == 1 ? "1 object is" : summary.objects() + " objects are");
    }

    private static String boxes(Stream<String> words) {
        return words.map(word ->
                        "<label><input type=\"checkbox\" value=\"%s\" checked> %s</label>".formatted(word, word))
                .collect(Collectors.joining("\n"));
    }
}
