package vestibule.validator.report;

import java.io.IOException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** The forms of a report, by the name that the command knows. */
public enum ReportFormat {
    /** For people: one line a finding, then the advice. */
    TEXT,
    /** For programs: one JSON object. */
    JSON,
    /** For spreadsheets. */
    CSV,
    /** For a browser and for paper. */
    HTML,
    /** For tools that gather findings. */
    SARIF,
    /** For build servers. */
    JUNIT;

    /** The form of that name. */
    public static Optional<ReportFormat> named(String name) {
        return Arrays.stream(values())
                .filter(format -> format.word().equals(name))
                .findFirst();
    }

    /** The names of all forms, parted by commas. */
    public static String names() {
        return Arrays.stream(values()).map(ReportFormat::word).collect(Collectors.joining(", "));
    }

    private String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * A writer of this form; the caller closes the target.
     *
     * @throws IOException if the target takes nothing
     */
    public ReportWriter writer(Appendable target, ReportHeader header) throws IOException {
        return switch (this) {
            case TEXT -> new TextReport(target, header);
            case JSON -> new JsonReport(target, header);
            case CSV -> new CsvReport(target, header);
            case HTML -> new HtmlReport(target, header);
            case SARIF -> new SarifReport(target, header);
            case JUNIT -> new JunitReport(target, header);
        };
    }
}
