package vestibule.bridge.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.settings.SettingsException;

/** Finds and reads the settings of one call: the file that {@code --config} names, else the usual one if it is here. */
final class SettingsFile {

    private SettingsFile() {}

    static Settings of(Arguments arguments) throws Failure {
        Optional<Path> named = arguments.path("config");
        if (named.isEmpty() && !Files.exists(Settings.DEFAULT_FILE)) {
            return Settings.NONE;
        }
        try {
            return Settings.read(named.orElse(Settings.DEFAULT_FILE));
        } catch (SettingsException e) {
            throw new Failure(Exit.WRONG_SETTINGS, e.getMessage() + ".");
        }
    }
}
