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
        this(status, NO_ERROR_ID, comment);
    }

    /**
     * @param status a status of the failure class
     * @param errorId the Error ID that the service class defines for it
     * @param comment why, as above
     */
    public RefusedException(int status, int errorId, String comment) {
        super(comment);
        this.status = status;
        this.errorId = errorId;
    }

    /** The status to answer. */
    public int status() {
        return status;
    }

    /** The Error ID to answer, if there is one. */
    public OptionalInt errorId() {
        return errorId == NO_ERROR_ID ? OptionalInt.empty() : OptionalInt.of(errorId);
    }

    /** Why. */
    public String comment() {
        return String.valueOf(getMessage());
    }
}
