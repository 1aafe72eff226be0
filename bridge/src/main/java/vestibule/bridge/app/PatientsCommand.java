package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.apache.commons.cli.Options;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.PatientSearch;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.Deadlines;

/** Looks patients, and their photographs, up in the archive. */
final class PatientsCommand implements Command {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    @Override
    public String name() {
        return "patients";
    }

    @Override
    public String syntax() {
        return "--to URL [--patient-id ID] [--patient-name NAME] [--photographs] [--card FILE] [--json]";
    }

    @Override
    public String summary() {
        return "looks patients, and their photographs, up in the archive";
    }

    @Override
    public Options options() {
        Options options = Archives.with(new Options());
        options.addOption(Given.value("patient-id", "ID", "only this Patient ID"));
        options.addOption(Given.value("patient-name", "NAME", "only these names; * is any run of characters"));
        options.addOption(Given.flag("photographs", "list the photographs rather than the patients"));
        options.addOption(Given.value(
                "card", "FILE", "write the card of the patient with --patient-id, to print: FILE.html or FILE.svg"));
        options.addOption(Given.flag("json", "print JSON instead of a table"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "patients takes no words; see --help.");
        }
        Destination archive = Archives.destination(arguments);
        PhotographSearch search = new PhotographSearch(archive, Archives.ourTitle(arguments), Deadlines.DEFAULT);
        Optional<String> id = arguments.text("patient-id", VR.LO);
        Optional<String> name = arguments.text("patient-name", VR.LO);
        try {
            if (arguments.has("card")) {
                Path card = arguments.path("card").orElseThrow();
                String one = arguments.required("patient-id", VR.LO);
                PatientCards.write(
                        new PatientSearch(archive, Archives.ourTitle(arguments), Deadlines.DEFAULT), one, card);
                terminal.out().println(card);
                return Exit.FINE;
            }
            List<Map<String, String>> rows = arguments.has("photographs")
                    ? photographs(search.photographs(id, name))
                    : patients(search.studies(id, name));
            print(rows, arguments.has("json"), arguments.has("photographs"), terminal);
            return Exit.FINE;
        } catch (SearchException e) {
            throw new Failure(Exit.TRY_LATER, "%s: %s.".formatted(archive, e.getMessage()));
        } catch (AssociationException e) {
            throw new Failure(Exit.NOT_REACHABLE, e.getMessage() + ".");
        }
    }

    private static List<Map<String, String>> patients(List<DataSet> studies) {
        Map<String, Map<String, String>> byPatient = new LinkedHashMap<>();
        for (DataSet study : studies) {
            Map<String, String> row = person(study);
            row.put("born", day(study.text(Attributes.PATIENT_BIRTH_DATE)));
            row.put("sex", study.text(Attributes.PATIENT_SEX).orElse(""));
            byPatient
                    .computeIfAbsent(row.toString(), key -> row)
                    .merge("studies", "1", (a, b) -> Integer.toString(Integer.parseInt(a) + 1));
        }
        return new ArrayList<>(byPatient.values());
    }

    private static Map<String, String> person(DataSet study) {
        Map<String, String> row = new LinkedHashMap<>();
        row.put("patient", study.text(Attributes.PATIENT_NAME).orElse(""));
        row.put("id", study.text(Attributes.PATIENT_ID).orElse(""));
        return row;
    }

    private static List<Map<String, String>> photographs(List<PhotographSearch.Found> found) {
        return found.stream()
                .sorted(Comparator.comparing(PatientsCommand::order))
                .map(PatientsCommand::row)
                .toList();
    }

    private static String order(PhotographSearch.Found found) {
        return found.study().text(Attributes.PATIENT_ID).orElse("") + "\n"
                + found.image().text(Attributes.ACQUISITION_DATE_TIME).orElse("") + "\n"
                + found.image().text(Attributes.INSTANCE_NUMBER).orElse("");
    }

    private static Map<String, String> row(PhotographSearch.Found found) {
        DataSet image = found.image();
        Map<String, String> row = person(found.study());
        row.put(
                "date",
                day(image.text(Attributes.CONTENT_DATE).or(() -> found.study().text(Attributes.STUDY_DATE))));
        row.put("view", image.text(Attributes.IMAGE_COMMENTS).orElse(""));
        row.put("side", image.text(Attributes.IMAGE_LATERALITY).orElse(""));
        row.put("teeth", teeth(image));
        row.put("state", "in the archive");
        row.put("object", image.text(Attributes.SOP_INSTANCE_UID).orElse(""));
        return row;
    }

    private static String teeth(DataSet image) {
        return image.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE).stream()
                .map(item -> new Code(
                        item.text(Attributes.CODE_VALUE).orElse(""),
                        item.text(Attributes.CODING_SCHEME_DESIGNATOR).orElse(""),
                        ""))
                .flatMap(code -> ViewCatalogue.standard().tooth(code).stream())
                .map(Tooth::words)
                .collect(Collectors.joining(", "));
    }

    private static String day(Optional<String> date) {
        return date.filter(text -> text.length() == 8)
                .map(text -> text.substring(0, 4) + "-" + text.substring(4, 6) + "-" + text.substring(6))
                .orElse("");
    }

    private static void print(List<Map<String, String>> rows, boolean json, boolean photographs, Terminal terminal) {
        if (json) {
            terminal.out().println(JSON.writeValueAsString(Map.of(photographs ? "photographs" : "patients", rows)));
        } else if (rows.isEmpty()) {
            terminal.err()
                    .println("vestibule patients: no %s found in the archive that matches."
                            .formatted(photographs ? "photograph" : "patient"));
        } else {
            TextTable.print(rows, terminal.out());
        }
    }
}
