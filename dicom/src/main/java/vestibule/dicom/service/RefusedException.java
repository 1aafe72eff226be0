package vestibule.dicom.service;

/** A request that a handler refuses, with the status to answer. */
public final class RefusedException extends Exception {

    private static final long serialVersionUID = 1L;

    private final int status;

    /**
     * @param status a status of the failure class
     * @param comment why, for the Error Comment; up to 64 characters travel, and no patient is named in it
     */
    public RefusedException(int status, String comment) {
        super(comment);
        this.status = status;
    }

    /** The status to answer. */
    public int status() {
        return status;
    }

    /** Why. */
    public String comment() {
        return String.valueOf(getMessage());
    }
}
