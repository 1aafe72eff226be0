package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import org.apache.commons.cli.Options;
import vestibule.bridge.settings.Settings;

/** Counts, what needs attention and why, which cards may be cleared. */
final class StatusCommand implements Command {

    private final Clock clock;

    StatusCommand(Clock clock) {
        this.clock = clock;
    }

    @Override
    public String name() {
        return "status";
    }

    @Override
    public String syntax() {
        return "[--json] [--home DIR]";
    }

    @Override
    public String summary() {
        return "counts, what needs attention and why, which cards may be cleared";
    }

    @Override
    public Options options() {
        Options options = Homes.with(new Options());
        options.addOption(Given.flag("json", "print JSON"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "status takes no words; see --help.");
        }
        Settings settings = SettingsFile.of(arguments);
        try (Keeping keeping = Keeping.openExisting(Keeping.folder(arguments, settings), settings, clock)) {
            StatusReport report = StatusReport.of(keeping, settings, clock.instant());
            if (arguments.has("json")) {
                terminal.out().println(report.json());
            } else {
                report.print(terminal.out());
            }
            return report.asks() ? Exit.FINDINGS : Exit.FINE;
        }
    }
}
