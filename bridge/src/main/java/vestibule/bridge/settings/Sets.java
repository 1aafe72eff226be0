package vestibule.bridge.settings;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.tomlj.Toml;
import vestibule.bridge.view.PhotoSet;
import vestibule.bridge.view.SetCatalogue;
import vestibule.bridge.view.SetCustoms;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.VR;

/** The section {@code [sets]}: which views a sitting of this practice should contain. */
final class Sets {

    static final Set<String> KEYS =
            Set.of("sets.usual", "sets.accept-order", "sets.profile", "sets.usual-views", "sets.own.*");

    private Sets() {}

    static SetCustoms of(SettingsReader reader) {
        List<PhotoSet> own = new ArrayList<>();
        for (String id : reader.tablesBelow("sets.own")) {
            String key = Toml.joinKeyPath(List.of("sets", "own", id));
            if (reader.toml().isTable(key)) {
                own.add(own(reader, key, id));
            } else {
                reader.refuse(key, "it is no table, expected one with views = [\"VIEW\", …]");
            }
        }
        List<String> usualViews =
                reader.values("sets.usual-views", Views::id, "the id of a view; vestibule views lists them");
        SetCustoms customs = new SetCustoms(
                reader.text("sets.usual", VR.LO),
                reader.flag("sets.accept-order", false),
                reader.value("sets.profile", SetCustoms.Profile::parse, "\"right\", \"left\" or \"both\"")
                        .orElse(SetCustoms.Profile.RIGHT),
                Set.copyOf(usualViews),
                own);
        SetCatalogue sets = SetCatalogue.of(customs);
        if (customs.usual().isPresent() && sets.set(customs.usual().get()).isEmpty()) {
            reader.problems()
                    .add("%s: sets.usual names %s, which is no set; vestibule sets lists them"
                            .formatted(reader.file(), customs.usual().get()));
        }
        return customs;
    }

    private static PhotoSet own(SettingsReader reader, String key, String id) {
        String views = key + ".views";
        List<PhotoSet.Place> places = new ArrayList<>();
        reader.values(
                views,
                text -> {
                    Optional<PhotoSet.Place> place = SetCatalogue.parsePlace(places.size() + 1, text);
                    place.ifPresent(places::add);
                    return place;
                },
                "a view, or several parted by \" or \", then commas and any of optional, repeat, stage WORDS");
        PhotoSet set = new PhotoSet(
                id,
                reader.text(key + ".name", VR.LO).orElse(id),
                reader.text(key + ".use", VR.LO).orElse(""),
                places);
        SetCatalogue.problems(set, ViewCatalogue.standard()).forEach(problem -> reader.refuse(views, problem));
        return set;
    }
}
