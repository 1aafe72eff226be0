package vestibule.bridge.app;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.apache.commons.cli.Options;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.probe.Probe;
import vestibule.bridge.probe.Step;
import vestibule.bridge.probe.Wishes;
import vestibule.bridge.settings.ListenerSettings;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.tls.Tls;

/** Tests the link to the archive. */
final class ProbeCommand implements Command {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final Clock clock;

    ProbeCommand(Clock clock) {
        this.clock = clock;
    }

    @Override
    public String name() {
        return "probe";
    }

    @Override
    public String syntax() {
        return "--to URL [--listen PORT] [--with-test-object] [--json]";
    }

    @Override
    public String summary() {
        return "tests the link to the archive, there and back, and says what is wrong";
    }

    @Override
    public Options options() {
        Options options = Archives.with(new Options());
        options.addOption(Given.value(
                "listen", "PORT", "where the archive delivers commitment reports; else listener.port of the settings"));
        options.addOption(Given.flag(
                "with-test-object",
                "store an object that is marked as a test and shows no patient, and ask for its commitment"));
        options.addOption(Given.flag("json", "print JSON instead of a table"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "probe takes no words; the archive is named by --to.");
        }
        Destination archive = Archives.destination(arguments);
        Wishes wishes = wishes(arguments, archive);
        Probe.Report report = new Probe(archive, Archives.ourTitle(arguments), wishes, clock, new SecureRandom()).run();
        print(archive, report, arguments.has("json"), terminal);
        if (report.usable()) {
            return Exit.FINE;
        }
        return report.later() ? Exit.TRY_LATER : Exit.NOT_REACHABLE;
    }

    private static Wishes wishes(Arguments arguments, Destination archive) throws Failure, IOException {
        Settings settings = SettingsFile.of(arguments);
        ListenerSettings listener = settings.listener();
        Optional<Integer> port = arguments.number("listen", 0, 65_535).or(listener::port);
        Wishes wishes = Wishes.USUAL.withTestObject(arguments.has("with-test-object"));
        if (port.isEmpty()) {
            return wishes;
        }
        Optional<Tls> tls = listener.tls() ? Optional.of(Credentials.server(settings.tls())) : Optional.empty();
        List<String> callers = listener.callers().isEmpty() ? List.of(archive.calledAe()) : listener.callers();
        return wishes.withListener(new Wishes.Listener(
                address(listener, port.get()),
                callers.stream().map(AeTitle::new).collect(Collectors.toSet()),
                tls));
    }

    /** Where to listen for archives that report. */
    static InetSocketAddress address(ListenerSettings listener, int port) throws Failure {
        if (listener.address().isEmpty()) {
            return new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
        }
        try {
            return new InetSocketAddress(
                    InetAddress.getByName(listener.address().get()), port);
        } catch (UnknownHostException e) {
            throw new Failure(
                    Exit.WRONG_SETTINGS,
                    "listener.address is %s, which is no address of this computer; write \"0.0.0.0\" to listen on all."
                            .formatted(listener.address().get()));
        }
    }

    private static void print(Destination archive, Probe.Report report, boolean json, Terminal terminal) {
        if (json) {
            Map<String, Object> all = new LinkedHashMap<>();
            all.put("archive", archive.toString());
            all.put("usable", report.usable());
            all.put(
                    "steps",
                    report.steps().stream().map(ProbeCommand::described).toList());
            terminal.out().println(JSON.writeValueAsString(all));
            return;
        }
        report.steps()
                .forEach(step -> terminal.out()
                        .printf(
                                "%-28s %-11s %s%n",
                                step.part().words(), step.result().words(), step.sentence()));
        terminal.out()
                .println(
                        report.usable()
                                ? "Photographs can be sent to %s.".formatted(archive)
                                : "Photographs cannot be sent to %s yet.".formatted(archive));
    }

    private static Map<String, Object> described(Step step) {
        Map<String, Object> described = new LinkedHashMap<>();
        described.put("step", step.part().words());
        described.put("result", step.result().words());
        described.put("message", step.sentence());
        described.put("needed", step.needed());
        return described;
    }
}
