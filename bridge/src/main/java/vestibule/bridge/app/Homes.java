package vestibule.bridge.app;

import org.apache.commons.cli.Options;

/** The words by which commands name a home and its settings. */
final class Homes {

    private Homes() {}

    static Options with(Options options) {
        options.addOption(
                Given.value("home", "DIR", "where our own data is; else the one of the settings, else vestibule-home"));
        options.addOption(Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
        return options;
    }
}
