package vestibule.dicom.net.upper;

/** The states of the upper layer (PS3.8 9.2.1, Tables 9-1 to 9-5). */
public enum State {
    /** Idle. */
    STA1,
    /** Transport connection open, awaiting A-ASSOCIATE-RQ. */
    STA2,
    /** Awaiting the local answer to a request. */
    STA3,
    /** Awaiting the transport connection to open. */
    STA4,
    /** Awaiting A-ASSOCIATE-AC or -RJ. */
    STA5,
    /** Association established, ready for data. */
    STA6,
    /** Awaiting A-RELEASE-RP. */
    STA7,
    /** Awaiting the local answer to a release. */
    STA8,
    /** Release collision, requestor side: awaiting the local answer. */
    STA9,
    /** Release collision, acceptor side: awaiting A-RELEASE-RP. */
    STA10,
    /** Release collision, requestor side: awaiting A-RELEASE-RP. */
    STA11,
    /** Release collision, acceptor side: awaiting the local answer. */
    STA12,
    /** Awaiting the transport connection to close. */
    STA13
}
