package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.cli.Options;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.delivery.WorklistSearch;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.data.VR;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Deadlines;

/** Looks up in the practice system what is scheduled. */
final class WorklistCommand implements Command {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final Clock clock;

    /** @param clock for what day it is */
    WorklistCommand(Clock clock) {
        this.clock = clock;
    }

    @Override
    public String name() {
        return "worklist";
    }

    @Override
    public String syntax() {
        return "[--to URL] [--date YYYY-MM-DD] [--patient-id ID] [--station TITLE] [--modality XC] [--json]";
    }

    @Override
    public String summary() {
        return "looks up in the practice system who is scheduled";
    }

    @Override
    public Options options() {
        return Given.all(
                Given.value(
                        "to",
                        "URL",
                        "the practice system: dicom://HOST:PORT/CALLED_AE; else patients.worklist of the settings"),
                Given.value("calling-ae", "TITLE", "our own AE title; else the one of the settings, else VESTIBULE"),
                Given.value("date", "YYYY-MM-DD", "the day; else today"),
                Given.value("patient-id", "ID", "only this Patient ID, on any day unless --date is given"),
                Given.value("station", "TITLE", "only what is scheduled for this station"),
                Given.value("modality", "CODE", "only what is scheduled for this modality, as XC"),
                Given.flag("json", "print JSON instead of a table"),
                Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "worklist takes no words; see --help.");
        }
        Settings settings = SettingsFile.of(arguments);
        Destination system = system(arguments, settings);
        Optional<String> id = arguments.text("patient-id", VR.LO);
        Optional<LocalDate> day =
                arguments.date("date").or(() -> id.isPresent() ? Optional.empty() : Optional.of(LocalDate.now(clock)));
        WorklistSearch.Question question = new WorklistSearch.Question(
                id, Optional.empty(), day, day, arguments.text("station", VR.AE), arguments.text("modality", VR.CS));
        try {
            List<Map<String, String>> rows = new WorklistSearch(system, Archives.ourTitle(arguments), Deadlines.DEFAULT)
                    .items(question).stream()
                            .flatMap(item -> Known.of(item, Evidence.Source.WORKLIST).stream())
                            .map(WorklistCommand::row)
                            .sorted(Comparator.comparing(row -> row.getOrDefault("start", "") + row.get("id")))
                            .toList();
            print(rows, arguments.has("json"), terminal);
            return Exit.FINE;
        } catch (SearchException e) {
            throw new Failure(Exit.TRY_LATER, "%s: %s.".formatted(system, e.getMessage()));
        } catch (AssociationException e) {
            throw new Failure(Exit.NOT_REACHABLE, e.getMessage() + ".");
        }
    }

    private static Destination system(Arguments arguments, Settings settings) throws Failure {
        Optional<String> url = arguments.text("to").or(() -> settings.patients().worklist());
        if (url.isEmpty()) {
            throw new Failure(
                    Exit.USAGE,
                    "--to is missing, and the settings have no patients.worklist; name the practice system.");
        }
        try {
            return Destination.parse(url.get());
        } catch (DestinationException e) {
            boolean given = arguments.has("to");
            throw new Failure(
                    given ? Exit.USAGE : Exit.WRONG_SETTINGS,
                    "%s %s.".formatted(given ? "--to" : "patients.worklist", e.getMessage()));
        }
    }

    private static Map<String, String> row(Known known) {
        Map<String, String> row = new LinkedHashMap<>();
        Optional<Known.Appointment> appointment = known.appointment();
        row.put(
                "start",
                appointment
                        .flatMap(Known.Appointment::start)
                        .map(Object::toString)
                        .orElse(""));
        row.put("patient", known.patient().name().toString());
        row.put("id", known.patient().id());
        row.put("issuer", known.patient().issuer().orElse(""));
        row.put("born", known.patient().birthDate().map(LocalDate::toString).orElse(""));
        row.put("sex", known.patient().sex().orElse(""));
        row.put("accession", appointment.flatMap(Known.Appointment::accession).orElse(""));
        row.put("what", appointment.flatMap(Known.Appointment::description).orElse(""));
        row.put("study", appointment.flatMap(Known.Appointment::study).orElse(""));
        return row;
    }

    private static void print(List<Map<String, String>> rows, boolean json, Terminal terminal) {
        if (json) {
            terminal.out().println(JSON.writeValueAsString(Map.of("worklist", rows)));
        } else if (rows.isEmpty()) {
            terminal.err().println("vestibule worklist: nobody is scheduled that matches.");
        } else {
            TextTable.print(rows, terminal.out());
        }
    }
}
