package vestibule.validator;

/** Settings that cannot be followed; the message says where, what was found and what was expected, a line for each. */
public final class SettingsException extends Exception {
    private static final long serialVersionUID = 1L;

    SettingsException(String message) {
        super(message);
    }
}
