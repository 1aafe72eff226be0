package vestibule.bridge.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.cli.Options;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.PhotoSet;
import vestibule.bridge.view.SetCatalogue;
import vestibule.bridge.view.ViewCatalogue;

/** Prints the sets of views that sittings are checked against. */
final class SetsCommand implements Command {

    @Override
    public String name() {
        return "sets";
    }

    @Override
    public String syntax() {
        return "[SET] [--json] [--config FILE]";
    }

    @Override
    public String summary() {
        return "the sets of views that a sitting is checked against";
    }

    @Override
    public Options options() {
        return CatalogueAnswer.options();
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        Settings settings = SettingsFile.of(arguments);
        SetCatalogue catalogue = SetCatalogue.of(settings.sets());
        List<PhotoSet> sets = new ArrayList<>(catalogue.sets());
        if (arguments.words().size() > 1) {
            throw new Failure(
                    Exit.USAGE,
                    "sets takes one set, found %d words."
                            .formatted(arguments.words().size()));
        }
        if (arguments.words().size() == 1) {
            String id = arguments.words().get(0);
            sets.retainAll(List.of(catalogue
                    .set(id)
                    .orElseThrow(() ->
                            new Failure(Exit.USAGE, "there is no set %s; vestibule sets lists all.".formatted(id)))));
        }
        new CatalogueAnswer(
                        Map.of("sets", sets.stream().map(SetsCommand::described).toList()),
                        rows(sets, ViewCatalogue.of(settings.views())))
                .print(arguments, terminal);
        return Exit.FINE;
    }

    private static List<Map<String, String>> rows(List<PhotoSet> sets, ViewCatalogue views) {
        List<Map<String, String>> rows = new ArrayList<>();
        for (PhotoSet set : sets) {
            for (PhotoSet.Place place : set.places()) {
                Map<String, String> row = new LinkedHashMap<>();
                row.put("set", set.id());
                row.put("no", Integer.toString(place.position()));
                row.put("view", String.join(" or ", place.views()));
                row.put("need", (place.required() ? "required" : "optional") + (place.repeat() ? ", may repeat" : ""));
                row.put("in words", place.words(views));
                rows.add(row);
            }
        }
        return rows;
    }

    private static Map<String, Object> described(PhotoSet set) {
        Map<String, Object> described = new LinkedHashMap<>();
        described.put("id", set.id());
        described.put("name", set.name());
        described.put("use", set.use());
        described.put(
                "places", set.places().stream().map(SetsCommand::described).toList());
        return described;
    }

    private static Map<String, Object> described(PhotoSet.Place place) {
        Map<String, Object> described = new LinkedHashMap<>();
        described.put("position", place.position());
        described.put("views", place.views());
        described.put("required", place.required());
        described.put("repeat", place.repeat());
        place.stage().ifPresent(stage -> described.put("stage", stage));
        return described;
    }
}
