package vestibule.dicom.net.upper;

/** What an action asks the outside to do; each action is a short list of these (PS3.8 9.2.3, Tables 9-6 to 9-9). */
public enum Effect {
    OPEN_TRANSPORT,
    CLOSE_TRANSPORT,
    START_ARTIM,
    STOP_ARTIM,
    SEND_ASSOCIATE_RQ,
    SEND_ASSOCIATE_AC,
    SEND_ASSOCIATE_RJ,
    SEND_DATA,
    SEND_RELEASE_RQ,
    SEND_RELEASE_RP,
    SEND_ABORT_BY_USER,
    SEND_ABORT_BY_PROVIDER,
    TELL_REQUESTED,
    TELL_ACCEPTED,
    TELL_REJECTED,
    TELL_DATA,
    TELL_RELEASE_REQUESTED,
    TELL_RELEASED,
    TELL_ABORTED,
    TELL_ABORTED_BY_PROVIDER
}
