package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The sets of views, from the committed table and as a practice has them. */
public final class SetCatalogue {

    private static final int LONGEST_SHOWN = 40;

    private final Map<String, PhotoSet> sets = new LinkedHashMap<>();

    private SetCatalogue(SetCustoms customs) {
        for (String[] row : Tables.rows("sets.tsv", 8)) {
            PhotoSet before = sets.getOrDefault(row[0], new PhotoSet(row[0], row[1], row[2], List.of()));
            List<PhotoSet.Place> places = new ArrayList<>(before.places());
            places.add(new PhotoSet.Place(
                    Integer.parseInt(row[3]),
                    Tables.words(row[4]),
                    row[5].equals("required"),
                    row[6].equals("repeat"),
                    Tables.known(row[7])));
            sets.put(row[0], new PhotoSet(row[0], row[1], row[2], places));
        }
        sets.replaceAll((id, set) -> withProfile(set, customs.profile()));
        customs.own().forEach(set -> sets.put(set.id(), set));
    }

    /** The sets that come with the program. */
    public static SetCatalogue standard() {
        return of(SetCustoms.USUAL);
    }

    /** The sets as a practice with these customs has them. */
    public static SetCatalogue of(SetCustoms customs) {
        return new SetCatalogue(customs);
    }

    /** All sets. */
    public Collection<PhotoSet> sets() {
        return Collections.unmodifiableCollection(sets.values());
    }

    /** The set of that id, if there is one. */
    public Optional<PhotoSet> set(String id) {
        return Optional.ofNullable(sets.get(id));
    }

    /** What is wrong with the sets, a sentence without a full stop each; only a practice's own can be wrong. */
    public List<String> problems(ViewCatalogue views) {
        return sets.values().stream()
                .flatMap(set -> problems(set, views).stream())
                .toList();
    }

    /** What is wrong with one set, a sentence without a full stop each. */
    public static List<String> problems(PhotoSet set, ViewCatalogue views) {
        List<String> problems = new ArrayList<>();
        if (!set.id().matches("[a-z0-9]+(-[a-z0-9]+)*")) {
            problems.add("the set %s is called by no id: small letters and digits parted by hyphens"
                    .formatted(start(set.id())));
        }
        if (set.places().isEmpty()) {
            problems.add("the set %s has no views".formatted(start(set.id())));
        }
        for (PhotoSet.Place place : set.places()) {
            place.views().stream()
                    .filter(id -> views.view(id).isEmpty())
                    .forEach(id -> problems.add(
                            "the set %s names the view %s, which there is not; close to it are %s, and vestibule views lists all"
                                    .formatted(start(set.id()), start(id), String.join(", ", views.similar(id)))));
        }
        return problems;
    }

    /** Enough of a word to find it by. */
    private static String start(String word) {
        return word.length() > LONGEST_SHOWN ? word.substring(0, LONGEST_SHOWN) + "…" : word;
    }

    /**
     * Reads one place of a practice's own set: {@code VIEW}, {@code VIEW or VIEW}, then, parted by commas, any of {@code optional},
     * {@code repeat} and {@code stage WORDS}.
     */
    public static Optional<PhotoSet.Place> parsePlace(int position, String text) {
        List<String> parts =
                Arrays.stream(text.split(",", -1)).map(String::strip).toList();
        boolean required = true;
        boolean repeat = false;
        Optional<String> stage = Optional.empty();
        for (String part : parts.subList(1, parts.size())) {
            if (part.equals("optional")) {
                required = false;
            } else if (part.equals("repeat")) {
                repeat = true;
            } else if (Stage.parse(part.replaceFirst("^stage ", "")).isPresent() && part.startsWith("stage ")) {
                stage = Stage.parse(part.substring("stage ".length()));
            } else {
                return Optional.empty();
            }
        }
        List<String> views = List.of(parts.get(0).split(" or "));
        return views.stream().allMatch(view -> view.matches("[a-z0-9-]+"))
                ? Optional.of(new PhotoSet.Place(position, views, required, repeat, stage))
                : Optional.empty();
    }

    private static PhotoSet withProfile(PhotoSet set, SetCustoms.Profile profile) {
        boolean leftAlready = set.places().stream()
                .flatMap(place -> place.views().stream())
                .anyMatch(view -> view.startsWith("face-profile-left"));
        if (profile == SetCustoms.Profile.RIGHT || leftAlready) {
            return set;
        }
        List<PhotoSet.Place> places = new ArrayList<>();
        for (PhotoSet.Place place : set.places()) {
            boolean right = place.views().get(0).startsWith("face-profile-right");
            if (!right || profile == SetCustoms.Profile.BOTH) {
                places.add(at(places.size() + 1, place, place.views()));
            }
            if (right) {
                places.add(at(
                        places.size() + 1,
                        place,
                        place.views().stream()
                                .map(view -> view.replace("-right-", "-left-"))
                                .toList()));
            }
        }
        return new PhotoSet(set.id(), set.name(), set.use(), places);
    }

    private static PhotoSet.Place at(int position, PhotoSet.Place place, List<String> views) {
        return new PhotoSet.Place(position, views, place.required(), place.repeat(), place.stage());
    }
}
