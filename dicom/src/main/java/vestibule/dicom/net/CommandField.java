package vestibule.dicom.net;

import java.util.Optional;

/** Command Field (0000,0100): which message a command set makes (PS3.7 E.1). */
public enum CommandField {
    C_STORE_RQ(0x0001),
    C_STORE_RSP(0x8001),
    C_GET_RQ(0x0010),
    C_GET_RSP(0x8010),
    C_FIND_RQ(0x0020),
    C_FIND_RSP(0x8020),
    C_MOVE_RQ(0x0021),
    C_MOVE_RSP(0x8021),
    C_ECHO_RQ(0x0030),
    C_ECHO_RSP(0x8030),
    C_CANCEL_RQ(0x0FFF),
    N_EVENT_REPORT_RQ(0x0100),
    N_EVENT_REPORT_RSP(0x8100),
    N_GET_RQ(0x0110),
    N_GET_RSP(0x8110),
    N_SET_RQ(0x0120),
    N_SET_RSP(0x8120),
    N_ACTION_RQ(0x0130),
    N_ACTION_RSP(0x8130),
    N_CREATE_RQ(0x0140),
    N_CREATE_RSP(0x8140),
    N_DELETE_RQ(0x0150),
    N_DELETE_RSP(0x8150);

    private static final int RESPONSE = 0x8000;

    private final int code;

    CommandField(int code) {
        this.code = code;
    }

    /** The message of that number, if there is one. */
    public static Optional<CommandField> of(long code) {
        for (CommandField field : values()) {
            if (field.code == code) {
                return Optional.of(field);
            }
        }
        return Optional.empty();
    }

    /** The number on the wire. */
    public int code() {
        return code;
    }

    /** Whether it answers a request. */
    public boolean isResponse() {
        return (code & RESPONSE) != 0;
    }

    /** The message that answers this request. */
    CommandField response() {
        return of(code | RESPONSE)
                .orElseThrow(() -> new IllegalArgumentException(this + " is not answered by a message of its own"));
    }
}
