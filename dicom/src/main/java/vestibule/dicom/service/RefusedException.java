package vestibule.dicom.service;

import java.util.OptionalInt;

/** A request that a handler refuses, with the status to answer. */
public final class RefusedException extends Exception {

    private static final long serialVersionUID = 1L;
    private static final int NO_ERROR_ID = -1;

    private final int status;
    private final int errorId;

    /**
     * @param status a status of the failure class
     * @param comment why, for the Error Comment; up to 64 characters travel, and no patient is named in it
     */
    public RefusedException(int status, String comment) {
        this(status, comment, NO_ERROR_ID);
    }

    /** The same with an Error ID, where the standard gives the reason a number of its own. */
    RefusedException(int status, String comment, int errorId) {
        super(comment);
        this.status = status;
        this.errorId = errorId;
    }

    /** The status to answer. */
    public int status() {
        return status;
    }

    /** Why. */
    public String comment() {
        return String.valueOf(getMessage());
    }

    /** The Error ID to answer, if there is one. */
    OptionalInt errorId() {
        return errorId == NO_ERROR_ID ? OptionalInt.empty() : OptionalInt.of(errorId);
    }
}
