package vestibule.dicom.io;

import vestibule.dicom.data.Uid;

/** How this software names itself to others (PS3.7 D.3.3.2). */
public final class Implementation {

    /**
     * Implementation Class UID: a fixed identifier under {@code 2.25.}, because the project owns no registered root; the reasons stand in
     * {@code docs/decisions}.
     */
    public static final Uid CLASS_UID = new Uid("2.25.112883791849813652338516750865287294793");

    /** Implementation Version Name, at most 16 characters. */
    public static final String VERSION_NAME = "VESTIBULE_0_1";

    private Implementation() {}
}
