package vestibule.bridge.app;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.function.ToIntFunction;

/**
 * One run of the command in this process.
 *
 * @param exit its exit code
 * @param out what it printed as result
 * @param err what it said
 */
record Ran(int exit, String out, String err) {

    static Ran vestibule(String... words) {
        return on(terminal -> Main.run(words, terminal));
    }

    /** Runs one command that was made for the test. */
    static Ran command(Command command, String... words) {
        return on(terminal -> Main.run(command, words, terminal).code());
    }

    private static Ran on(ToIntFunction<Terminal> program) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int exit = program.applyAsInt(new Terminal(
                new PrintStream(out, true, StandardCharsets.UTF_8),
                new PrintStream(err, true, StandardCharsets.UTF_8)));
        return new Ran(exit, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }
}
