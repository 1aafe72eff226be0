package vestibule.bridge.app;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.apache.commons.cli.CommandLine;
import org.apache.commons.cli.DefaultParser;
import org.apache.commons.cli.Option;
import org.apache.commons.cli.Options;
import org.apache.commons.cli.ParseException;
import org.apache.commons.cli.help.HelpFormatter;
import vestibule.dicom.io.DicomFormatException;

/** The command {@code vestibule}: the first word names a command, the rest is its own. */
public final class Main {

    private static final Clock CLOCK = Clock.system(ZoneId.systemDefault());
    private static final Understanding UNDERSTANDING = new Workshop(CLOCK);

    /** By name; a command is made when it is called, so that one does not wait for what the others need. */
    private static final Map<String, Supplier<Command>> COMMANDS = commands();

    private static final String CAUTION = """
            Not a medical device. A licensed clinician decides who is on a photograph, which view and which side it
            shows. Local law on records, consent and privacy wins over anything this program does.""";

    private Main() {}

    private static Map<String, Supplier<Command>> commands() {
        Map<String, Supplier<Command>> commands = new LinkedHashMap<>();
        commands.put("intake", () -> new IntakeCommand(UNDERSTANDING, CLOCK, time -> new Bell().await(time)));
        commands.put("run", () -> new RunCommand(UNDERSTANDING, CLOCK));
        commands.put("status", () -> new StatusCommand(CLOCK));
        commands.put("settle", () -> new SettleCommand(UNDERSTANDING, CLOCK));
        commands.put("support", () -> new SupportCommand(CLOCK));
        commands.put("wrap", () -> new WrapCommand(CLOCK, scratchParent()));
        commands.put("turn", () -> new TurnCommand(scratchParent()));
        commands.put("views", ViewsCommand::new);
        commands.put("sets", SetsCommand::new);
        commands.put("sheet", () -> new SheetCommand(CLOCK));
        commands.put("send", SendCommand::new);
        commands.put("probe", () -> new ProbeCommand(CLOCK));
        commands.put("patients", PatientsCommand::new);
        commands.put("worklist", () -> new WorklistCommand(CLOCK));
        commands.put("audit", () -> new AuditCommand(scratchParent()));
        commands.put("archive", ArchiveCommand::new);
        return commands;
    }

    private static Path scratchParent() {
        return Path.of(System.getProperty("java.io.tmpdir", "."));
    }

    /** Runs one command and ends the program with its exit code. */
    public static void main(String[] arguments) {
        PrintStream out = new PrintStream(new FileOutputStream(FileDescriptor.out), true, StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(new FileOutputStream(FileDescriptor.err), true, StandardCharsets.UTF_8);
        System.exit(run(arguments, new Terminal(out, err)));
    }

    /** Runs one command and returns its exit code. */
    public static int run(String[] arguments, Terminal terminal) {
        if (arguments.length == 0 || arguments[0].equals("--help") || arguments[0].equals("help")) {
            printOverview(arguments.length == 0 ? terminal.err() : terminal.out());
            return (arguments.length == 0 ? Exit.USAGE : Exit.FINE).code();
        }
        if (arguments[0].equals("--version")) {
            terminal.out().println("vestibule " + version());
            return Exit.FINE.code();
        }
        Supplier<Command> command = COMMANDS.get(arguments[0]);
        if (command == null) {
            terminal.err()
                    .println("vestibule: there is no command %s; known are %s."
                            .formatted(arguments[0], String.join(", ", COMMANDS.keySet())));
            return Exit.USAGE.code();
        }
        return run(command.get(), Arrays.copyOfRange(arguments, 1, arguments.length), terminal)
                .code();
    }

    static String version() {
        return Optional.ofNullable(Main.class.getPackage().getImplementationVersion())
                .orElse("(built from source)");
    }

    static Exit run(Command command, String[] words, Terminal terminal) {
        try {
            Options options = command.options();
            options.addOption(Option.builder()
                    .longOpt("help")
                    .desc("say how this command is used")
                    .get());
            if (Arrays.asList(words).contains("--help")) {
                printHelp(command, options, terminal.out());
                return Exit.FINE;
            }
            return command.run(new Arguments(parse(options, words)), terminal);
        } catch (Failure e) {
            return end(command, terminal, e.exit(), String.valueOf(e.getMessage()));
        } catch (DicomFormatException e) {
            return end(command, terminal, Exit.BAD_DATA, e.getMessage() + ".");
        } catch (IOException e) {
            return end(command, terminal, Exit.INPUT_OUTPUT, sentence(e));
        } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
            return end(
                    command,
                    terminal,
                    Exit.INTERNAL,
                    "a fault of this program (%s at %s); nothing was changed, please report it."
                            .formatted(e.getClass().getSimpleName(), place(e)));
        }
    }

    private static String place(Throwable fault) {
        return Arrays.stream(fault.getStackTrace())
                .filter(frame -> frame.getClassName().startsWith("vestibule."))
                .findFirst()
                .map(frame -> frame.getFileName() + " line " + frame.getLineNumber())
                .orElse("an unknown place");
    }

    private static Exit end(Command command, Terminal terminal, Exit exit, String sentence) {
        terminal.err().println("vestibule %s: %s".formatted(command.name(), sentence));
        return exit;
    }

    private static CommandLine parse(Options options, String[] words) throws Failure {
        try {
            return DefaultParser.builder().setAllowPartialMatching(false).get().parse(options, words);
        } catch (ParseException e) {
            throw new Failure(Exit.USAGE, e.getMessage() + "; see --help.");
        }
    }

    static String sentence(IOException e) {
        if (e instanceof NoSuchFileException missing) {
            return missing.getFile() + " is not there, or is no ordinary file.";
        }
        if (e instanceof AccessDeniedException denied) {
            return denied.getFile() + " may not be read or written by this user.";
        }
        if (e instanceof FileSystemException file) {
            return "%s: %s."
                    .formatted(
                            file.getFile(),
                            Optional.ofNullable(file.getReason()).orElse("cannot be used"));
        }
        return Optional.ofNullable(e.getMessage()).orElse("a file could not be read or written") + ".";
    }

    private static void printOverview(PrintStream out) {
        out.println("Clinical dental photographs into the practice's imaging archive.");
        out.println();
        out.println("usage: vestibule COMMAND …");
        COMMANDS.forEach((name, command) ->
                out.printf("  %-10s %s%n", name, command.get().summary()));
        out.println();
        out.println("vestibule COMMAND --help tells more. vestibule --version names this version.");
        out.println();
        out.println(CAUTION);
    }

    private static void printHelp(Command command, Options options, PrintStream out) throws IOException {
        StringBuilder text = new StringBuilder();
        HelpFormatter.builder()
                .setShowSince(false)
                .setHelpAppendable(new org.apache.commons.cli.help.TextHelpAppendable(text))
                .get()
                .printHelp(
                        "vestibule " + command.name() + " " + command.syntax(),
                        command.summary(),
                        options,
                        CAUTION.replace('\n', ' '),
                        false);
        out.print(text);
    }
}
