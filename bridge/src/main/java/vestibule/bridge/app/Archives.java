package vestibule.bridge.app;

import java.io.IOException;
import java.util.Optional;
import org.apache.commons.cli.Options;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.data.VR;

/** The words by which commands name an archive and ourselves. */
final class Archives {

    static final String OUR_TITLE = "VESTIBULE";

    private Archives() {}

    static Options with(Options options) {
        options.addOption(Given.value("to", "URL", "the archive: dicom://HOST:PORT/CALLED_AE"));
        options.addOption(Given.value(
                "calling-ae", "TITLE", "our own AE title; else the one of the settings, else " + OUR_TITLE));
        options.addOption(Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
        return options;
    }

    static Destination destination(Arguments arguments) throws Failure {
        try {
            return Destination.parse(arguments.required("to"));
        } catch (DestinationException e) {
            throw new Failure(Exit.USAGE, "--to %s.".formatted(e.getMessage()));
        }
    }

    /** The archive of the settings, if they name one. */
    static Optional<Destination> ofSettings(Settings settings) throws Failure {
        Optional<String> url = settings.running().archive().url();
        try {
            return url.isPresent() ? Optional.of(Destination.parse(url.get())) : Optional.empty();
        } catch (DestinationException e) {
            throw new Failure(Exit.WRONG_SETTINGS, "[archive] url %s.".formatted(e.getMessage()));
        }
    }

    static String ourTitle(Arguments arguments) throws Failure, IOException {
        Settings settings = SettingsFile.of(arguments);
        Optional<String> given = arguments.text("calling-ae", VR.AE);
        return given.or(settings::callingAe).orElse(OUR_TITLE);
    }
}
