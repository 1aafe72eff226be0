package vestibule.bridge.outbox;

import java.util.Collection;
import java.util.EnumSet;
import java.util.Locale;

/** The state of a photograph, as every screen, log and JSON names it. The first five add up to what was taken in. */
public enum PhotoState {
    /** Taken in, on its way. */
    WAITING,
    /** A person must decide. */
    NEEDS_ATTENTION,
    /** The archive answered success. */
    SENT,
    /** The archive took responsibility. */
    COMMITTED,
    /** The archive refused for good. */
    REJECTED,
    /** Not a photograph to file; listed apart, and not counted among photographs. */
    SET_ASIDE;

    private static final EnumSet<ObjectState> STORED = EnumSet.of(ObjectState.SENT, ObjectState.COMMITTED);

    /** Its word. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static PhotoState of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    /**
     * The state that follows from what is known of a photograph: never {@code sent} without a success status for every object, never
     * {@code committed} without a proof for every object.
     *
     * @param aside whether it is not to be filed
     * @param doubtful whether a person must decide
     * @param objects the states of all objects of its decision; empty while there are none
     */
    static PhotoState of(boolean aside, boolean doubtful, Collection<ObjectState> objects) {
        if (aside) {
            return SET_ASIDE;
        }
        if (doubtful) {
            return NEEDS_ATTENTION;
        }
        if (objects.isEmpty()) {
            return WAITING;
        }
        if (objects.contains(ObjectState.REJECTED)) {
            return REJECTED;
        }
        if (objects.stream().allMatch(state -> state == ObjectState.COMMITTED)) {
            return COMMITTED;
        }
        return STORED.containsAll(objects) ? SENT : WAITING;
    }
}
