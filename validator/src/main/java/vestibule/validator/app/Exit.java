package vestibule.validator.app;

import vestibule.validator.BatchReport;

/** How the command ends. */
enum Exit {
    /** Every object passes, perhaps with warnings. */
    FINE(0),
    /** At least one object fails or could not be read. */
    FINDINGS(1),
    /** The command line is wrong. */
    USAGE(2),
    /** Not one of the files is a readable object. */
    BAD_DATA(65),
    /** A report could not be written. */
    INPUT_OUTPUT(74),
    /** The settings cannot be read, or say something that cannot be followed. */
    SETTINGS(78);

    private final int code;

    Exit(int code) {
        this.code = code;
    }

    int code() {
        return code;
    }

    /** From the verdicts, not from the number of findings. */
    static Exit of(BatchReport whole) {
        if (whole.summary().objects() == whole.summary().unreadable()) {
            return BAD_DATA;
        }
        return whole.isAcceptable() ? FINE : FINDINGS;
    }
}
