package vestibule.bridge.patient;

/** A day list that cannot be used; the message says where and what was expected, and names nobody. */
public final class DayListException extends Exception {

    private static final long serialVersionUID = 1L;

    DayListException(String sentence) {
        super(sentence);
    }
}
