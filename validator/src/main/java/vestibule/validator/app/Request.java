package vestibule.validator.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.cli.CommandLine;
import org.apache.commons.cli.DefaultParser;
import org.apache.commons.cli.Option;
import org.apache.commons.cli.Options;
import org.apache.commons.cli.ParseException;
import vestibule.validator.Profile;
import vestibule.validator.Settings;
import vestibule.validator.SettingsException;
import vestibule.validator.StreamDepth;
import vestibule.validator.report.ReportFiles;
import vestibule.validator.report.ReportFormat;

/**
 * What the command line asks for.
 *
 * @param paths files and folders to check
 * @param settings what to go by
 * @param depth how far to read streams
 * @param thumbnails whether the page for browsers shows the photographs
 * @param reports where reports go
 */
record Request(
        List<Path> paths, Settings settings, StreamDepth depth, boolean thumbnails, List<ReportFiles.Target> reports) {

    /** A command line that cannot be understood; the message says what to change. */
    static final class UsageException extends Exception {
        private static final long serialVersionUID = 1L;

        UsageException(String sentence) {
            super(sentence);
        }
    }

    static Options options() {
        Options options = new Options();
        options.addOption(Option.builder()
                .longOpt("profile")
                .hasArg()
                .argName("NAME")
                .desc("standard (what DICOM demands; the default) or practice (adds the rules of the house)")
                .get());
        options.addOption(Option.builder()
                .longOpt("report")
                .hasArg()
                .argName("FORMAT=FILE")
                .desc("write a report; FORMAT is one of " + ReportFormat.names()
                        + "; FILE - is standard output; may be repeated; without it, text goes to standard output")
                .get());
        options.addOption(Option.builder()
                .longOpt("settings")
                .hasArg()
                .argName("FILE")
                .desc("waivers, other severities and sets of views; the guide for the auditor shows the form")
                .get());
        options.addOption(Option.builder()
                .longOpt("streams")
                .hasArg()
                .argName("DEPTH")
                .desc(
                        "markers (looks at every byte of a JPEG stream; the default), headers (stops at the coded data)"
                                + " or codes (decodes the picture, the only way to find one that is cut short or damaged inside)")
                .get());
        options.addOption(Option.builder()
                .longOpt("thumbnails")
                .desc("show the photographs, made small, in the html report")
                .get());
        options.addOption(
                Option.builder().longOpt("help").desc("print this and end").get());
        options.addOption(Option.builder()
                .longOpt("version")
                .desc("print name, version and edition, and end")
                .get());
        return options;
    }

    static CommandLine parse(String[] arguments) throws UsageException {
        try {
            return DefaultParser.builder().setAllowPartialMatching(false).get().parse(options(), arguments);
        } catch (ParseException e) {
            throw new UsageException(String.valueOf(e.getMessage()));
        }
    }

    static Request of(CommandLine line) throws UsageException, SettingsException {
        if (line.getArgList().isEmpty()) {
            throw new UsageException("no PATH is given; name the files or folders to check");
        }
        List<Path> paths = new ArrayList<>();
        for (String argument : line.getArgList()) {
            paths.add(path(argument));
        }
        List<Path> read = new ArrayList<>(paths);
        if (line.hasOption("settings")) {
            read.add(path(line.getOptionValue("settings")));
        }
        List<ReportFiles.Target> reports = checked(targets(line), read);
        if (line.hasOption("thumbnails")
                && reports.stream().noneMatch(report -> report.format() == ReportFormat.HTML)) {
            throw new UsageException(
                    "--thumbnails are for the html report only; add --report html=FILE, or leave them out");
        }
        String depth = line.getOptionValue("streams", StreamDepth.MARKERS.word());
        return new Request(
                List.copyOf(paths),
                settings(line),
                StreamDepth.named(depth)
                        .orElseThrow(() -> new UsageException("--streams is \"%s\", and there are %s; use one of them"
                                .formatted(depth, StreamDepth.names()))),
                line.hasOption("thumbnails"),
                reports);
    }

    /** No report takes the place of what it is about, nor is it among what is checked. */
    private static List<ReportFiles.Target> checked(List<ReportFiles.Target> targets, List<Path> paths)
            throws UsageException {
        for (ReportFiles.Target target : targets) {
            Optional<Path> file = target.file();
            if (file.isPresent() && isOneOf(file.get(), paths)) {
                throw new UsageException(
                        "--report names \"%s\", which is to be read and would be written over; name another file"
                                .formatted(file.get()));
            }
            if (file.isPresent() && isWithin(file.get(), paths)) {
                throw new UsageException(
                        "--report names \"%s\", which lies in a folder to be checked and would be taken for an object; name a file outside"
                                .formatted(file.get()));
            }
        }
        return targets;
    }

    private static boolean isWithin(Path file, List<Path> paths) {
        try {
            Path folder = file.toAbsolutePath().getParent();
            for (Path path : paths) {
                if (folder != null
                        && Files.isDirectory(path)
                        && folder.toRealPath().startsWith(path.toRealPath())) {
                    return true;
                }
            }
            return false;
        } catch (IOException e) {
            // Whoever writes there says what is wrong with it
            return false;
        }
    }

    private static boolean isOneOf(Path file, List<Path> paths) throws UsageException {
        try {
            for (Path path : paths) {
                if (Files.exists(file) && Files.exists(path) && Files.isSameFile(file, path)) {
                    return true;
                }
            }
            return false;
        } catch (IOException e) {
            throw new UsageException("--report names \"" + file + "\", which cannot be looked at; name another file");
        }
    }

    /** The profile on the command line beats that of the settings. */
    private static Settings settings(CommandLine line) throws UsageException, SettingsException {
        Settings settings = Settings.of(Profile.STANDARD);
        String file = line.getOptionValue("settings");
        if (file != null) {
            settings = Settings.read(path(file));
        }
        String name = line.getOptionValue("profile", settings.profile().name());
        return settings.under(Profile.named(name)
                .orElseThrow(() -> new UsageException(
                        "--profile is \"" + name + "\", and there are standard and practice; use one of them")));
    }

    private static List<ReportFiles.Target> targets(CommandLine line) throws UsageException {
        String[] values = line.getOptionValues("report");
        if (values == null) {
            return List.of(new ReportFiles.Target(ReportFormat.TEXT, Optional.empty()));
        }
        try {
            return ReportFiles.targets(List.of(values));
        } catch (IllegalArgumentException e) {
            throw new UsageException(String.valueOf(e.getMessage()));
        }
    }

    private static Path path(String argument) throws UsageException {
        try {
            return Path.of(argument);
        } catch (InvalidPathException e) {
            throw new UsageException("a PATH holds a character that this system does not allow in file names");
        }
    }

    boolean usesStandardOutput() {
        return reports.stream().anyMatch(target -> target.file().isEmpty());
    }
}
