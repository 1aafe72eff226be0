package vestibule.bridge.app;

/** The end of a command that did not do what was asked: one sentence for the person, one code for the shell. */
final class Failure extends Exception {

    private static final long serialVersionUID = 1L;

    private final Exit exit;

    /** @param sentence where, what was found, what was expected, what to do */
    Failure(Exit exit, String sentence) {
        super(sentence);
        this.exit = exit;
    }

    Exit exit() {
        return exit;
    }
}
