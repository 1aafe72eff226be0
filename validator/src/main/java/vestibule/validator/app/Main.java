package vestibule.validator.app;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import org.apache.commons.cli.CommandLine;
import org.apache.commons.cli.help.HelpFormatter;
import org.apache.commons.cli.help.TextHelpAppendable;
import vestibule.validator.BatchReport;
import vestibule.validator.Citation;
import vestibule.validator.SettingsException;
import vestibule.validator.Validator;
import vestibule.validator.report.ReportFiles;
import vestibule.validator.report.ReportHeader;

/**
 * {@code vestibule-validator PATH… [--profile NAME] [--report FORMAT=FILE]…}: reports on standard output or in files, talk on standard
 * error. Ends with 0 if no object fails, 1 if one fails or cannot be read, 2 for a wrong command line, 65 if nothing could be read, 74 if
 * a report cannot be written, 78 if the settings cannot be read or followed.
 */
public final class Main {

    private static final String NAME = "vestibule-validator";

    private final PrintStream out;
    private final PrintStream err;

    Main(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
    }

    /** The command. */
    public static void main(String[] arguments) {
        PrintStream out = new PrintStream(
                new java.io.FileOutputStream(java.io.FileDescriptor.out), false, StandardCharsets.UTF_8);
        PrintStream err =
                new PrintStream(new java.io.FileOutputStream(java.io.FileDescriptor.err), true, StandardCharsets.UTF_8);
        // That takes as long as understanding the command line; whoever needs it first waits for it
        Thread preparing = new Thread(Validator::prepare, "preparing");
        preparing.setDaemon(true);
        preparing.start();
        Exit exit = new Main(out, err).run(arguments);
        out.flush();
        System.exit(exit.code());
    }

    Exit run(String... arguments) {
        try {
            CommandLine line = Request.parse(arguments);
            if (line.hasOption("help")) {
                printHelp();
                return Exit.FINE;
            }
            if (line.hasOption("version")) {
                out.println(program() + ", DICOM " + Citation.EDITION);
                return Exit.FINE;
            }
            return check(Request.of(line));
        } catch (Request.UsageException e) {
            err.println(NAME + ": " + e.getMessage());
            return Exit.USAGE;
        } catch (SettingsException e) {
            err.println(NAME + ": " + e.getMessage());
            return Exit.SETTINGS;
        } catch (IOException e) {
            err.println(NAME + ": a report cannot be written: " + e.getMessage() + "; name another file or make room");
            return Exit.INPUT_OUTPUT;
        }
    }

    private Exit check(Request request) throws IOException {
        Validator validator = Validator.under(request.settings()).reading(request.depth());
        if (request.thumbnails()) {
            validator = validator.withThumbnails();
        }
        ReportHeader header = ReportHeader.of(program(), validator);
        Writer standardOutput = new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
        try (ReportFiles reports = new ReportFiles(request.reports(), header, standardOutput)) {
            BatchReport whole = validator.validate(request.paths(), reports);
            reports.end(whole);
            standardOutput.flush();
            if (!request.usesStandardOutput()) {
                out.println(whole.summary().sentence());
                whole.sentenceOfWhole().ifPresent(out::println);
            }
            if (whole.summary().objects() == 0) {
                err.println(NAME + ": there is no file in what was named; name files, or folders that hold some");
            }
            return Exit.of(whole);
        }
    }

    private static String program() {
        String version = Main.class.getPackage().getImplementationVersion();
        return NAME + " " + (version == null ? "(development)" : version);
    }

    private void printHelp() throws IOException {
        HelpFormatter.builder()
                .setHelpAppendable(new TextHelpAppendable(out))
                .setShowSince(false)
                .get()
                .printHelp(
                        NAME + " PATH... [--profile NAME] [--settings FILE] [--report FORMAT=FILE]...",
                        "Checks DICOM objects against the standard. PATH is a file, a ZIP file or a folder, with all in it.",
                        Request.options(),
                        "Ends with 0 if no object fails, 1 if one fails or cannot be read, 2 for a wrong command line,"
                                + " 65 if not one file could be read, 74 if a report cannot be written,"
                                + " 78 if the settings cannot be read or followed.",
                        false);
    }
}
