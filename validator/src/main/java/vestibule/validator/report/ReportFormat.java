package vestibule.validator.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** The forms of a report, by the name that the command knows. */
public enum ReportFormat {
    /** For people: one line a finding, then the advice. */
    TEXT("vestibule-validator "),
    /** For programs: one JSON object. */
    JSON("{\"edition\":"),
    /** For spreadsheets. */
    CSV("path,verdict,rule"),
    /** For a browser and for paper. */
    HTML("<!DOCTYPE html>"),
    /** For tools that gather findings. */
    SARIF("{\"$schema\":"),
    /** For build servers. */
    JUNIT("<?xml version");

    private static final int LONGEST_START = 32;

    /** How every report of this form begins. */
    private final String start;

    ReportFormat(String start) {
        this.start = start;
    }

    /** Whether there is something at a place that is no report, and must not be written over. */
    static boolean isOther(Path file) {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        try (InputStream in = Files.newInputStream(file)) {
            String found = new String(in.readNBytes(LONGEST_START), StandardCharsets.UTF_8);
            return !found.isEmpty() && Arrays.stream(values()).noneMatch(format -> found.startsWith(format.start));
        } catch (IOException e) {
            // What cannot be looked at is not written over
            return true;
        }
    }

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
