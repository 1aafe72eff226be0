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
        options.addOption(Given.value("to", "URL", "the archive: dicom://HOST:PORT/CALLED_AE, or dicoms:// for TLS"));
        options.addOption(Given.value(
                "calling-ae", "TITLE", "our own AE title; else the one of the settings, else " + OUR_TITLE));
        options.addOption(Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
        return options;
    }

    static Destination destination(Arguments arguments) throws Failure, IOException {
        return destination("--to", arguments.required("to"), SettingsFile.of(arguments));
    }

    /**
     * An archive, with the credentials of the settings where it is reached by TLS.
     *
     * @param where what named it, for the sentence if it is none
     */
    static Destination destination(String where, String url, Settings settings) throws Failure, IOException {
        try {
            Destination archive = Destination.parse(url);
            return archive.isSecure() ? archive.withTls(Credentials.client(settings.tls())) : archive;
        } catch (DestinationException e) {
            throw new Failure(
                    where.startsWith("--") ? Exit.USAGE : Exit.WRONG_SETTINGS,
                    "%s %s.".formatted(where, e.getMessage()));
        }
    }

    /** The archive of the settings, if they name one. */
    static Optional<Destination> ofSettings(Settings settings) throws Failure, IOException {
        Optional<String> url = settings.running().archive().url();
        return url.isPresent() ? Optional.of(destination("[archive] url", url.get(), settings)) : Optional.empty();
    }

    static String ourTitle(Arguments arguments) throws Failure, IOException {
        Settings settings = SettingsFile.of(arguments);
        Optional<String> given = arguments.text("calling-ae", VR.AE);
        return given.or(settings::callingAe).orElse(OUR_TITLE);
    }
}
