package vestibule.samples;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The samples from the command line. Exit codes: 0 fine, 2 wrong use, 74 input/output. */
public final class Main {
    private static final int FINE = 0;
    private static final int WRONG_USE = 2;
    private static final int INPUT_OUTPUT = 74;

    private static final String USAGE = """
            Sample photographs of an invented practice.
              card --to DIR [--size WxH]       writes DIR/card as a camera card with two patients, and DIR/catalogue.tsv
              list                             prints the catalogue of all sample photographs
              photo ID --to FILE [--size WxH]  writes one photograph
              files                            prints the catalogue of the hand-assembled DICOM files
              file NAME --to FILE              writes one of them
            The usual size is 1600x1200; 160x120 to 8000x8000 can be had.
            """;

    private final PrintStream out;

    private Main(PrintStream out) {
        this.out = out;
    }

    /** Runs a command and ends the program with its exit code. */
    public static void main(String[] arguments) {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
        System.exit(run(List.of(arguments), out, err));
    }

    static int run(List<String> arguments, PrintStream out, PrintStream err) {
        try {
            new Main(out).run(arguments);
            return FINE;
        } catch (WrongUseException | IllegalArgumentException e) {
            err.println(e.getMessage());
            return WRONG_USE;
        } catch (IOException e) {
            err.println(
                    "writing: found " + e + ", expected a folder that can be written to; check the place after --to");
            return INPUT_OUTPUT;
        }
    }

    private void run(List<String> arguments) throws IOException, WrongUseException {
        String command = arguments.isEmpty() ? "" : arguments.get(0);
        switch (command) {
            case "card" -> card(options(arguments, 1));
            case "list" -> {
                options(arguments, 1);
                out.print(Samples.catalogue());
            }
            case "photo" -> photo(word(arguments, "the id of a photograph"), options(arguments, 2));
            case "files" -> {
                options(arguments, 1);
                out.print(SampleFile.catalogue());
            }
            case "file" -> file(word(arguments, "the name of a file"), options(arguments, 2));
            case "--help", "help" -> out.print(USAGE);
            default ->
                throw new WrongUseException("command: found "
                        + (command.isEmpty() ? "none" : command)
                        + ", expected card, list, photo, files or file; --help explains them");
        }
    }

    private void card(Map<String, String> options) throws IOException, WrongUseException {
        Path card = Card.write(to(options), size(options));
        out.println(card);
    }

    private static void photo(String id, Map<String, String> options) throws IOException, WrongUseException {
        SamplePhoto photo = Samples.photo(id);
        Files.write(to(options), Samples.jpeg(photo, size(options)));
    }

    private static void file(String name, Map<String, String> options) throws IOException, WrongUseException {
        Files.write(to(options), Samples.file(name));
    }

    private static String word(List<String> arguments, String what) throws WrongUseException {
        if (arguments.size() < 2 || arguments.get(1).startsWith("--")) {
            throw new WrongUseException(arguments.get(0) + ": found nothing behind it, expected " + what);
        }
        return arguments.get(1);
    }

    private static Map<String, String> options(List<String> arguments, int from) throws WrongUseException {
        Map<String, String> options = new LinkedHashMap<>();
        for (int i = from; i < arguments.size(); i += 2) {
            String name = arguments.get(i);
            if (!name.equals("--to") && !name.equals("--size")) {
                throw new WrongUseException(arguments.get(0) + ": found " + name + ", expected --to or --size");
            }
            if (i + 1 == arguments.size()) {
                throw new WrongUseException(arguments.get(0) + ": found nothing behind " + name + ", expected a value");
            }
            options.put(name, arguments.get(i + 1));
        }
        return options;
    }

    private static Path to(Map<String, String> options) throws WrongUseException {
        String place = options.get("--to");
        if (place == null) {
            throw new WrongUseException("--to: found nothing, expected the place to write to");
        }
        try {
            return Path.of(place);
        } catch (InvalidPathException e) {
            throw new WrongUseException("--to: found " + place + ", expected a path of this machine");
        }
    }

    private static PhotoSize size(Map<String, String> options) {
        String size = options.get("--size");
        return size == null ? PhotoSize.USUAL : PhotoSize.parse(size);
    }

    /** The command line says something that cannot be done; the message is a whole sentence. */
    private static final class WrongUseException extends Exception {
        private static final long serialVersionUID = 1L;

        WrongUseException(String message) {
            super(message);
        }
    }
}
