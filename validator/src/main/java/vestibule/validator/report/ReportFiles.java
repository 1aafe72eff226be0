package vestibule.validator.report;

import java.io.BufferedWriter;
import java.io.Closeable;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.validator.BatchReport;
import vestibule.validator.ObjectReader;
import vestibule.validator.ObjectReport;

/** Several reports of one batch, written at the same time: what a command line asks for as {@code FORMAT=FILE}. */
public final class ReportFiles implements ObjectReader, Closeable {

    /** The words that make a report go to standard output. */
    private static final String STANDARD_OUTPUT = "-";

    /**
     * One report.
     *
     * @param format its form
     * @param file where it goes; empty for standard output
     */
    public record Target(ReportFormat format, Optional<Path> file) {}

    private final List<Writer> writers = new ArrayList<>();
    private final List<ReportWriter> reports = new ArrayList<>();

    /**
     * Opens them all.
     *
     * @param standardOutput takes the report that goes there; it is flushed, not closed
     * @throws IOException if a file cannot be written
     */
    public ReportFiles(List<Target> targets, ReportHeader header, Writer standardOutput) throws IOException {
        boolean open = false;
        try {
            for (Target target : targets) {
                Appendable to = standardOutput;
                if (target.file().isPresent()) {
                    BufferedWriter writer =
                            Files.newBufferedWriter(target.file().get(), StandardCharsets.UTF_8);
                    writers.add(writer);
                    to = writer;
                }
                reports.add(target.format().writer(to, header));
            }
            open = true;
        } finally {
            if (!open) {
                close();
            }
        }
    }

    /**
     * Reads the values of an option.
     *
     * @throws IllegalArgumentException if one of them asks for something else; the message says what to change
     */
    public static List<Target> targets(List<String> values) {
        List<Target> targets = new ArrayList<>();
        for (String value : values) {
            int equals = value.indexOf('=');
            String format = equals < 0 ? value : value.substring(0, equals);
            String file = equals < 0 ? "" : value.substring(equals + 1);
            ReportFormat known = ReportFormat.named(format)
                    .orElseThrow(() ->
                            new IllegalArgumentException("--report is \"%s\", and the formats are %s; use one of them"
                                    .formatted(value, ReportFormat.names())));
            if (file.isEmpty()) {
                throw new IllegalArgumentException(
                        "--report is \"" + value + "\", which names no file; write " + format + "=FILE");
            }
            targets.add(new Target(known, file.equals(STANDARD_OUTPUT) ? Optional.empty() : Optional.of(path(file))));
        }
        if (targets.stream().filter(target -> target.file().isEmpty()).count() > 1) {
            throw new IllegalArgumentException("two reports go to standard output; send one of them to a file");
        }
        refuseTwice(targets);
        refuseOthers(targets);
        return List.copyOf(targets);
    }

    /** Nothing but a report of before is written over. */
    private static void refuseOthers(List<Target> targets) {
        for (Target target : targets) {
            if (target.file().filter(ReportFormat::isOther).isPresent()) {
                throw new IllegalArgumentException(
                        "--report names \"%s\", which is no report and would be written over; name another file"
                                .formatted(target.file().get()));
            }
        }
    }

    /** The second would take the place of the first. */
    private static void refuseTwice(List<Target> targets) {
        List<Path> files =
                targets.stream().flatMap(target -> target.file().stream()).toList();
        for (int i = 1; i < files.size(); i++) {
            Path file = files.get(i);
            if (files.subList(0, i).stream().anyMatch(earlier -> isSame(earlier, file))) {
                throw new IllegalArgumentException(
                        "--report names \"%s\" for two reports; name a file for each".formatted(file));
            }
        }
    }

    /** By what is there, as links lead to it, else by name in the folder that links lead to; a device may take several reports. */
    private static boolean isSame(Path one, Path other) {
        try {
            boolean both = Files.exists(one) && Files.exists(other);
            return both
                    ? Files.isRegularFile(one) && Files.isSameFile(one, other)
                    : place(one).equals(place(other));
        } catch (IOException e) {
            // Opening it says what is wrong with it
            return one.equals(other);
        }
    }

    private static Path place(Path file) throws IOException {
        Path absolute = file.toAbsolutePath();
        Path folder = absolute.getParent();
        return folder == null ? absolute : folder.toRealPath().resolve(absolute.getFileName());
    }

    private static Path path(String file) {
        try {
            return Path.of(file);
        } catch (InvalidPathException e) {
            throw new IllegalArgumentException(
                    "--report names a file with a character that this system does not allow", e);
        }
    }

    @Override
    public void accept(ObjectReport object) throws IOException {
        for (ReportWriter report : reports) {
            report.object(object);
        }
    }

    /** Ends them all. */
    public void end(BatchReport whole) throws IOException {
        for (ReportWriter report : reports) {
            report.end(whole);
        }
    }

    @Override
    public void close() throws IOException {
        for (ReportWriter report : reports) {
            report.close();
        }
        for (Writer writer : writers) {
            writer.close();
        }
    }
}
