package vestibule.bridge.app;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.apache.commons.cli.Options;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.Probe;
import vestibule.dicom.net.Deadlines;

/** Tests the link to the archive. */
final class ProbeCommand implements Command {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final Duration EACH_WAIT = Duration.ofSeconds(8);

    @Override
    public String name() {
        return "probe";
    }

    @Override
    public String syntax() {
        return "--to URL [--json]";
    }

    @Override
    public String summary() {
        return "tests the link to the archive and says what is wrong";
    }

    @Override
    public Options options() {
        Options options = Archives.with(new Options());
        options.addOption(Given.flag("json", "print JSON instead of a table"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "probe takes no words; the archive is named by --to.");
        }
        Destination archive = Archives.destination(arguments);
        List<Probe.Step> steps = new Probe(archive, Archives.ourTitle(arguments), Deadlines.all(EACH_WAIT)).run();
        if (arguments.has("json")) {
            terminal.out()
                    .println(JSON.writeValueAsString(Map.of(
                            "steps", steps.stream().map(ProbeCommand::described).toList())));
        } else {
            steps.forEach(step -> terminal.out()
                    .printf("%-12s %-10s %s%n", step.name(), step.result().words(), step.sentence()));
        }
        boolean usable = steps.stream().noneMatch(step -> step.needed() && step.result() == Probe.Result.FAILED);
        return usable ? Exit.FINE : Exit.NOT_REACHABLE;
    }

    private static Map<String, String> described(Probe.Step step) {
        return Map.of("step", step.name(), "result", step.result().words(), "message", step.sentence());
    }
}
