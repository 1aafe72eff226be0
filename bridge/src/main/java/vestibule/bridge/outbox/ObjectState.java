package vestibule.bridge.outbox;

import java.util.Locale;

/** How far an object has come on its way to the archive. */
public enum ObjectState {
    /** The archive does not have it; it can be made at any time. */
    MADE,
    /** Sending has begun and no answer has been seen: the archive may have it. It is to be asked for before anything else. */
    SENDING,
    /** No answer was seen, and the archive says that it has it. */
    FOUND,
    /** The archive answered success, or success with a warning. */
    SENT,
    /** The archive took responsibility, or what it keeps was read back and compared. */
    COMMITTED,
    /** The archive refused it for good. */
    REJECTED;

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    static ObjectState of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
    }
}
