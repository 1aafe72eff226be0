package vestibule.bridge.settings;

import java.util.List;

/** Settings that cannot be used; the message names every place, not just the first. */
public final class SettingsException extends Exception {

    private static final long serialVersionUID = 1L;

    SettingsException(List<String> problems) {
        super(String.join("; ", problems));
    }
}
