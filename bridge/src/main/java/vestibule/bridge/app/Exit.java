package vestibule.bridge.app;

/** The exit codes of the command. */
public enum Exit {
    /** Done. */
    FINE(0),
    /** Findings, or photographs that need a person's attention. */
    FINDINGS(1),
    /** The command was used wrongly. */
    USAGE(2),
    /** Data that cannot be used. */
    BAD_DATA(65),
    /** The archive cannot be reached. */
    NOT_REACHABLE(69),
    /** A fault of this program. */
    INTERNAL(70),
    /** A file or folder cannot be read or written. */
    INPUT_OUTPUT(74),
    /** The archive asks to try later. */
    TRY_LATER(75),
    /** Settings that cannot be used. */
    WRONG_SETTINGS(78);

    private final int code;

    Exit(int code) {
        this.code = code;
    }

    /** The number the shell sees. */
    public int code() {
        return code;
    }
}
