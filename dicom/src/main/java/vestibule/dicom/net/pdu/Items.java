package vestibule.dicom.net.pdu;

/** The types of items and sub-items (PS3.8 9.3.2, 9.3.3, D.1; PS3.7 D.3.3). */
final class Items {

    static final int APPLICATION_CONTEXT = 0x10;
    static final int PROPOSED_CONTEXT = 0x20;
    static final int RESULT_CONTEXT = 0x21;
    static final int ABSTRACT_SYNTAX = 0x30;
    static final int TRANSFER_SYNTAX = 0x40;
    static final int USER_INFORMATION = 0x50;
    static final int MAXIMUM_LENGTH = 0x51;
    static final int IMPLEMENTATION_CLASS = 0x52;
    static final int ASYNCHRONOUS_WINDOW = 0x53;
    static final int ROLE_SELECTION = 0x54;
    static final int IMPLEMENTATION_VERSION = 0x55;
    static final int EXTENDED_NEGOTIATION = 0x56;
    static final int COMMON_EXTENDED_NEGOTIATION = 0x57;
    static final int USER_IDENTITY = 0x58;
    static final int USER_IDENTITY_RESPONSE = 0x59;

    /** How many items one PDU may have in all; 128 contexts with 60 transfer syntaxes each stay below it. */
    static final int MOST = 8_192;

    private Items() {}
}
