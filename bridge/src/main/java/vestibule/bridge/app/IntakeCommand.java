package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.apache.commons.cli.Options;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.intake.SourceReader;
import vestibule.bridge.intake.SourceReader.Look;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.settings.Intake;
import vestibule.bridge.settings.Settings;

/** Takes cards and folders in, once. */
final class IntakeCommand implements Command {

    /** How many looks a file that is still being written gets. */
    private static final int LOOKS = 4;

    private static final Look SILENT = new Look(
            List.of(),
            List.of(),
            List.of(),
            0,
            0,
            Optional.of("it does not answer; vestibule status counts what was taken in before"));

    private final Understanding understanding;
    private final Clock clock;
    private final Pause pause;

    /** Lets time pass between two looks. */
    interface Pause {
        void of(Duration time) throws InterruptedException;
    }

    IntakeCommand(Understanding understanding, Clock clock, Pause pause) {
        this.understanding = understanding;
        this.clock = clock;
        this.pause = pause;
    }

    @Override
    public String name() {
        return "intake";
    }

    @Override
    public String syntax() {
        return "FOLDER… [--home DIR]";
    }

    @Override
    public String summary() {
        return "takes cards and folders in, once; they are only read";
    }

    @Override
    public Options options() {
        return Homes.with(new Options());
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "expected cards or folders to take in, found none; see --help.");
        }
        Settings settings = SettingsFile.of(arguments);
        List<Path> sources = answering(arguments.words(), settings, terminal);
        try (Keeping keeping = Keeping.open(Keeping.folder(arguments, settings), settings, clock);
                Keeping.Lock lock = keeping.lockIntake()
                        .orElseThrow(() -> new Failure(
                                Exit.TRY_LATER,
                                "another intake into this home is going on; wait for it and call again."))) {
            Exit exit = run(new Session(keeping, settings, terminal, lock), sources);
            return sources.size() < arguments.words().size() ? Exit.TRY_LATER : exit;
        }
    }

    /** The sources that say where they are; the others may hang for ever, and must not keep these from being taken in. */
    private static List<Path> answering(List<String> words, Settings settings, Terminal terminal)
            throws Failure, IOException {
        List<Path> sources = new ArrayList<>();
        for (String word : words) {
            Path folder = Arguments.path("FOLDER", word);
            Inquiry.of(() -> source(folder))
                    .answer(settings.running().intake().hangs())
                    .ifPresentOrElse(
                            sources::add,
                            () -> terminal.err()
                                    .println(
                                            "vestibule intake: %s: it does not answer; call again.".formatted(folder)));
        }
        return sources;
    }

    private record Session(Keeping keeping, Settings settings, Terminal terminal, Keeping.Lock lock) {}

    /** The name of a source is its real path, so that it is the same however it is called. */
    static Path source(Path folder) throws Failure, IOException {
        if (!Files.isDirectory(folder)) {
            throw new Failure(
                    Exit.INPUT_OUTPUT, "%s: is not there, or is no folder; name a card or a folder.".formatted(folder));
        }
        return folder.toRealPath();
    }

    private Exit run(Session session, List<Path> sources) throws Failure, IOException {
        Originals originals = session.keeping().originalsForIntake();
        boolean whole = true;
        Instant since = clock.instant().truncatedTo(ChronoUnit.MILLIS);
        List<String> names = new ArrayList<>();
        for (Path source : sources) {
            SourceReader reader = session.keeping()
                    .reader(source, originals, session.settings().running().intake(), clock);
            names.add(reader.name());
            whole &= take(session, reader, source);
        }
        Deciding deciding = understanding.deciding(
                session.settings(),
                Archives.ofSettings(session.settings()),
                session.settings().callingAe().orElse(Archives.OUR_TITLE),
                session.keeping().memory());
        DecidingDesk desk = new DecidingDesk(
                session.keeping().outbox(),
                originals,
                deciding,
                session.keeping().node(),
                clock,
                new Backoff(RandomGenerator.getDefault()));
        // A person asks now, whatever was put off before
        session.keeping().outbox().rulings().dueNow(originals.place());
        desk.step(source -> true);
        desk.troubles()
                .forEach(trouble -> session.terminal()
                        .err()
                        .println("vestibule intake: %s; they are safe, and run tries again.".formatted(trouble)));
        if (desk.leftToAnother()) {
            session.terminal()
                    .err()
                    .println(
                            "vestibule intake: all is safe; vestibule run is deciding just now, see vestibule status.");
        }
        boolean attention = false;
        for (String source : names) {
            tellSittings(session, source, since);
            attention |= tell(session, source);
        }
        return !whole || !desk.troubles().isEmpty() || desk.leftToAnother()
                ? Exit.TRY_LATER
                : attention ? Exit.FINDINGS : Exit.FINE;
    }

    private boolean take(Session session, SourceReader reader, Path source) throws Failure, IOException {
        Intake intake = session.settings().running().intake();
        Tally tally = new Tally(session.terminal());
        Look look = look(reader, intake.hangs());
        tally.add(look);
        for (int i = 1; i < LOOKS && look.trouble().isEmpty() && look.awaited() > 0; i++) {
            if (!pause(intake.settle())) {
                break;
            }
            look = look(reader, intake.hangs());
            tally.add(look);
        }
        if (look.equals(SILENT)) {
            // The reader never came to say it itself; the card must not look as if all of it had been reached
            session.keeping().outbox().arrivals().trouble(reader.name(), "it does not answer");
        }
        return tally.end(source, look);
    }

    /** One look, given up where the source finishes no file for so long; what it had taken in until then is safe. */
    static Look look(SourceReader reader, Duration hangs) throws Failure, IOException {
        Inquiry<Look> inquiry = Inquiry.of(reader::look);
        int before;
        Optional<Look> look;
        do {
            before = reader.steps();
            look = inquiry.answer(hangs);
        } while (look.isEmpty() && reader.steps() != before);
        if (look.isEmpty()) {
            reader.stop();
        }
        return look.orElse(SILENT);
    }

    private boolean pause(Duration time) {
        try {
            pause.of(time);
            return true;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private static final class Tally {
        private final Terminal terminal;
        private final Map<String, String> leftBehind = new HashMap<>();
        private int taken;
        private int known;

        Tally(Terminal terminal) {
            this.terminal = terminal;
        }

        void add(Look look) {
            taken += look.taken().size();
            known += look.known().size();
            look.taken().forEach(told -> leftBehind.remove(told.name()));
            look.known().forEach(told -> {
                leftBehind.remove(told.name());
                terminal.out()
                        .println("%s: the same bytes as %s…, taken in before"
                                .formatted(told.name(), told.what().substring(0, 12)));
            });
            look.leftBehind().forEach(told -> leftBehind.put(told.name(), told.what()));
        }

        /** Says what came of a source; false if not all of it was reached. */
        boolean end(Path source, Look last) {
            leftBehind.forEach(
                    (name, sentence) -> terminal.err().println("vestibule intake: %s: %s.".formatted(name, sentence)));
            last.trouble()
                    .ifPresent(trouble -> terminal.err()
                            .println("vestibule intake: %s: not all was reached: %s; call again."
                                    .formatted(source, trouble)));
            if (last.trouble().isEmpty() && last.awaited() > 0) {
                terminal.err()
                        .println("vestibule intake: %s: %s still being written; call again."
                                .formatted(
                                        source,
                                        Counted.of(last.awaited(), "file") + (last.awaited() == 1 ? " is" : " are")));
            }
            terminal.out()
                    .println("%s: %d taken in, %d known before, %d left behind"
                            .formatted(source, taken, known, leftBehind.size()));
            return last.trouble().isEmpty() && last.awaited() == 0;
        }
    }

    /** Says what the sets of the sittings lack that something was taken in of just now. */
    private static void tellSittings(Session session, String source, Instant since) throws IOException {
        SittingState.since(session.keeping().outbox(), since).stream()
                .filter(sitting -> sitting.source().equals(source))
                .flatMap(sitting -> sitting.lines().stream())
                .forEach(session.terminal().out()::println);
    }

    /** Says what is in doubt about the photographs of a source; true if a person must decide, or a file was left behind. */
    private static boolean tell(Session session, String source) throws IOException {
        Overview overview = session.keeping().outbox().overview();
        List<Overview.Photograph> doubtful = overview.waitingForAPerson(source);
        doubtful.forEach(photo -> session.terminal()
                .out()
                .println("%s  %s  %s  %s"
                        .formatted(
                                photo.photo().substring(0, 12),
                                photo.name(),
                                photo.reason().orElse("archive-refused"),
                                photo.message().or(photo::note).orElse(""))));
        return !doubtful.isEmpty() || overview.fate(source).leftBehind() > 0;
    }
}
