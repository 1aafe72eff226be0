package vestibule.bridge.app;

import org.apache.commons.cli.Option;
import org.apache.commons.cli.Options;

/** Shorthand for the options of commands. */
final class Given {

    private Given() {}

    /** An option with a value. */
    static Option value(String name, String valueName, String description) {
        return Option.builder()
                .longOpt(name)
                .hasArg()
                .argName(valueName)
                .desc(description)
                .get();
    }

    /** An option without one. */
    static Option flag(String name, String description) {
        return Option.builder().longOpt(name).desc(description).get();
    }

    static Options all(Option... options) {
        Options all = new Options();
        for (Option option : options) {
            all.addOption(option);
        }
        return all;
    }
}
