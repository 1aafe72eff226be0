package vestibule.bridge.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitOption;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.cli.Options;
import vestibule.bridge.delivery.Delivery;
import vestibule.bridge.delivery.Destination;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.StoreOutcome;

/** DICOM files go to the archive, each exactly as it is. */
final class SendCommand implements Command {

    @Override
    public String name() {
        return "send";
    }

    @Override
    public String syntax() {
        return "PATH… --to URL";
    }

    @Override
    public String summary() {
        return "DICOM files go to the archive, each exactly as it is";
    }

    @Override
    public Options options() {
        return Archives.with(new Options());
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "expected files or folders to send, found none; see --help.");
        }
        Destination archive = Archives.destination(arguments);
        Tally tally = new Tally(terminal);
        List<DicomFile> files = new ArrayList<>();
        for (String word : arguments.words()) {
            for (Path path : below(Arguments.path("PATH", word))) {
                read(path, files, tally);
            }
        }
        if (files.isEmpty() && tally.others == 0) {
            throw new Failure(
                    Exit.BAD_DATA, "there is no file in what was named, so nothing was sent; name files or folders.");
        }
        if (!files.isEmpty()) {
            deliver(new Delivery(archive, Archives.ourTitle(arguments), Deadlines.DEFAULT), files, tally);
        }
        terminal.out().printf("%d of %d stored%n", tally.stored, tally.stored + tally.others);
        return tally.exit;
    }

    private static void deliver(Delivery delivery, List<DicomFile> files, Tally tally) throws Failure {
        try {
            delivery.send(files, tally::told);
        } catch (AssociationException e) {
            throw new Failure(
                    Exit.NOT_REACHABLE,
                    "%s; %d of %d files were stored before, the rest was not sent."
                            .formatted(e.getMessage(), tally.stored, files.size()));
        }
    }

    private static List<Path> below(Path path) throws IOException {
        if (Files.isRegularFile(path)) {
            return List.of(path);
        }
        if (!Files.isDirectory(path)) {
            throw new NoSuchFileException(path.toString());
        }
        try (Stream<Path> files = Files.walk(path, new FileVisitOption[0])) {
            return files.filter(Files::isRegularFile).sorted().toList();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static void read(Path path, List<DicomFile> files, Tally tally) throws IOException {
        try {
            files.add(DicomFile.read(path));
        } catch (DicomFormatException e) {
            tally.other(path, "not sent: " + e.getMessage(), Exit.BAD_DATA);
        }
    }

    /** What became of the files, told as it happens; the worst of it is the exit code. */
    private static final class Tally {
        private final Terminal terminal;
        private int stored;
        private int others;
        private Exit exit = Exit.FINE;

        Tally(Terminal terminal) {
            this.terminal = terminal;
        }

        void told(DicomFile file, StoreOutcome outcome) {
            Path path = file.path();
            if (outcome instanceof StoreOutcome.Stored) {
                stored++;
                terminal.out().println(path + ": stored");
            } else if (outcome instanceof StoreOutcome.StoredChanged changed) {
                stored++;
                terminal.out().println(path + ": stored");
                say(
                        path,
                        "the archive stored it with warning %04X (%s); compare what it keeps"
                                .formatted(changed.status(), changed.comment()),
                        Exit.FINDINGS);
            } else if (outcome instanceof StoreOutcome.Refused refused) {
                other(
                        path,
                        "the archive refused it with status %04X (%s)%s"
                                .formatted(
                                        refused.status(),
                                        refused.comment(),
                                        refused.retry() ? "; it may take it later" : ""),
                        refused.retry() ? Exit.TRY_LATER : Exit.FINDINGS);
            } else if (outcome instanceof StoreOutcome.NotSent notSent) {
                other(path, "not sent: " + notSent.reason(), Exit.BAD_DATA);
            } else if (outcome instanceof StoreOutcome.Unknown unknown) {
                other(
                        path,
                        "sent, but no answer came (%s); the archive may have it, send it again"
                                .formatted(unknown.cause().getMessage()),
                        Exit.TRY_LATER);
            } else {
                throw new AssertionError(outcome);
            }
        }

        void other(Path path, String sentence, Exit code) {
            others++;
            say(path, sentence, code);
        }

        private void say(Path path, String sentence, Exit code) {
            terminal.err().println("vestibule send: %s: %s.".formatted(path, sentence));
            if (exit == Exit.FINE || exit == Exit.FINDINGS) {
                exit = code;
            }
        }
    }
}
