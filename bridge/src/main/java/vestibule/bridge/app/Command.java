package vestibule.bridge.app;

import java.io.IOException;
import org.apache.commons.cli.Options;

/** One command of the program. */
interface Command {

    /** The first word. */
    String name();

    /** What follows the first word, for the usage line. */
    String syntax();

    /** What it does, in one line. */
    String summary();

    /** The options it takes; {@code --help} is added to them. */
    Options options();

    /**
     * Does it.
     *
     * @throws Failure if it could not be done; the sentence says why
     * @throws IOException if a file could not be read or written
     */
    Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException;
}
