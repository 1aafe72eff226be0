package vestibule.bridge.app;

import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.apache.commons.cli.Option;
import org.apache.commons.cli.Options;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.Retrieval;
import vestibule.bridge.delivery.SearchException;
import vestibule.dicom.data.VR;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Deadlines;
import vestibule.validator.Batch;
import vestibule.validator.BatchReport;
import vestibule.validator.Profile;
import vestibule.validator.Settings;
import vestibule.validator.SettingsException;
import vestibule.validator.StreamDepth;
import vestibule.validator.Validator;
import vestibule.validator.report.ReportFiles;
import vestibule.validator.report.ReportFormat;
import vestibule.validator.report.ReportHeader;

/** Checks what the archive has of a patient or a day: fetches it into a scratch folder, a series at a time, and validates it. */
final class AuditCommand implements Command {

    private final Path scratchParent;

    AuditCommand(Path scratchParent) {
        this.scratchParent = scratchParent;
    }

    @Override
    public String name() {
        return "audit";
    }

    @Override
    public String syntax() {
        return "--to URL [--patient-id ID] [--date YYYY-MM-DD] [--profile NAME] [--settings FILE] [--report FORMAT=FILE]…";
    }

    @Override
    public String summary() {
        return "checks what the archive has of a patient, of a day, or both";
    }

    @Override
    public Options options() {
        Options options = Archives.with(new Options());
        options.addOption(Given.value("patient-id", "ID", "everything of this Patient ID"));
        options.addOption(Given.value("date", "YYYY-MM-DD", "everything of the studies of this day"));
        options.addOption(
                Given.value("profile", "NAME", "standard or practice; else that of the settings, else practice"));
        options.addOption(
                Given.value("settings", "FILE", "the validator's settings: waivers, severities, sets of views"));
        options.addOption(Option.builder()
                .longOpt("report")
                .hasArg()
                .argName("FORMAT=FILE")
                .desc("write a report; FORMAT is one of " + ReportFormat.names()
                        + "; FILE - is standard output; may be repeated; without it, text goes to standard output")
                .get());
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        Optional<String> patient = arguments.text("patient-id", VR.LO);
        Optional<LocalDate> day = arguments.date("date");
        if (!arguments.words().isEmpty() || (patient.isEmpty() && day.isEmpty())) {
            throw new Failure(Exit.USAGE, "audit takes --patient-id, --date or both, and no words; see --help.");
        }
        Destination archive = Archives.destination(arguments);
        // what an archive keeps nobody has decoded since it left; fetching takes longer
        Validator validator = Validator.under(settings(arguments)).reading(StreamDepth.CODES);
        List<ReportFiles.Target> targets = targets(arguments);
        Retrieval retrieval = new Retrieval(archive, Archives.ourTitle(arguments), Deadlines.DEFAULT);
        try {
            List<Retrieval.Series> found = retrieval.find(patient, day);
            if (found.isEmpty()) {
                throw new Failure(Exit.BAD_DATA, "the archive has nothing that matches, so nothing was checked.");
            }
            return check(new Source(archive, retrieval, found), validator, targets, terminal);
        } catch (SearchException e) {
            throw new Failure(Exit.TRY_LATER, "%s: %s.".formatted(archive, e.getMessage()));
        } catch (AssociationException e) {
            throw new Failure(Exit.NOT_REACHABLE, e.getMessage() + ".");
        }
    }

    /** What is to be checked, and where it comes from. */
    private record Source(Destination archive, Retrieval retrieval, List<Retrieval.Series> found) {}

    private static Settings settings(Arguments arguments) throws Failure {
        Optional<Path> file = arguments.path("settings");
        Settings settings = Settings.of(Profile.PRACTICE);
        if (file.isPresent()) {
            try {
                settings = Settings.read(file.get());
            } catch (SettingsException e) {
                throw new Failure(Exit.WRONG_SETTINGS, e.getMessage() + ".");
            }
        }
        String name = arguments.text("profile").orElse(settings.profile().name());
        Profile profile = Profile.named(name)
                .orElseThrow(() -> new Failure(
                        Exit.USAGE, "--profile is \"%s\", and there are standard and practice.".formatted(name)));
        return settings.under(profile);
    }

    private static List<ReportFiles.Target> targets(Arguments arguments) throws Failure {
        List<String> values = arguments.texts("report");
        if (values.isEmpty()) {
            return List.of(new ReportFiles.Target(ReportFormat.TEXT, Optional.empty()));
        }
        try {
            return ReportFiles.targets(values);
        } catch (IllegalArgumentException e) {
            throw new Failure(Exit.USAGE, e.getMessage() + ".");
        }
    }

    private Exit check(Source source, Validator validator, List<ReportFiles.Target> targets, Terminal terminal)
            throws IOException {
        Path scratch = Files.createTempDirectory(scratchParent, "vestibule-audit-");
        Writer standardOutput = new OutputStreamWriter(terminal.out(), StandardCharsets.UTF_8);
        ReportHeader header = ReportHeader.of("vestibule audit", validator);
        try (ReportFiles reports = new ReportFiles(targets, header, standardOutput);
                Batch batch = validator.batch(reports)) {
            for (Retrieval.Series series : source.found()) {
                source.retrieval().fetch(series, scratch, new Taking(source.archive(), batch));
            }
            BatchReport whole = batch.end();
            reports.end(whole);
            standardOutput.flush();
            if (targets.stream().noneMatch(target -> target.file().isEmpty())) {
                terminal.out().println(whole.summary().sentence());
            }
            return whole.isAcceptable() ? Exit.FINE : Exit.FINDINGS;
        } finally {
            delete(scratch);
        }
    }

    /** Hands what came to the batch, under the address it has in the archive. */
    private record Taking(Destination archive, Batch batch) implements Retrieval.Receiver {

        private String name(Retrieval.Series series, String instance) {
            return "%s/%s/%s/%s".formatted(archive, series.study(), series.series(), instance);
        }

        @Override
        public void object(Retrieval.Series series, String instance, Path file) throws IOException {
            batch.takeTemporary(file, name(series, instance));
        }

        @Override
        public void missing(Retrieval.Series series, String instance, String reason) throws IOException {
            batch.unreadable(name(series, instance), reason);
        }
    }

    private static void delete(Path scratch) throws IOException {
        try (var files = Files.list(scratch)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(scratch);
    }
}
