package vestibule.bridge.app;

import java.io.PrintStream;

/**
 * Where a command talks to.
 *
 * @param out for results
 * @param err for talk about them
 */
public record Terminal(PrintStream out, PrintStream err) {}
