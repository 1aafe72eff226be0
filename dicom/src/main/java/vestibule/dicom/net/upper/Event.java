package vestibule.dicom.net.upper;

/** The events of the upper layer (PS3.8 9.2.2 and the rows of Table 9-10). */
public enum Event {
    /** Local request for an association. */
    EVT1,
    /** Transport connection opened. */
    EVT2,
    /** A-ASSOCIATE-AC received. */
    EVT3,
    /** A-ASSOCIATE-RJ received. */
    EVT4,
    /** Transport connection arrived. */
    EVT5,
    /** A-ASSOCIATE-RQ received. */
    EVT6,
    /** Local accept. */
    EVT7,
    /** Local reject. */
    EVT8,
    /** Local request to send data. */
    EVT9,
    /** P-DATA-TF received. */
    EVT10,
    /** Local request to release. */
    EVT11,
    /** A-RELEASE-RQ received. */
    EVT12,
    /** A-RELEASE-RP received. */
    EVT13,
    /** Local answer to a release. */
    EVT14,
    /** Local abort. */
    EVT15,
    /** A-ABORT received. */
    EVT16,
    /** Transport connection closed. */
    EVT17,
    /** ARTIM timer expired. */
    EVT18,
    /** A PDU that is unrecognized or wrongly made. */
    EVT19
}
