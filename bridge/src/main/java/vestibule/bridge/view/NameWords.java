package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * The words of views, sets and captures in the names of files and folders. A word counts only whole, parted from others by anything but
 * letters and digits: {@code 03_teeth-front-occlusion.JPG}, {@code Teeth front occlusion/IMG_0003.JPG}. {@code direct} alone is a word for
 * fillings and veneers too, so the capture of that word is written {@code capture-direct}.
 */
final class NameWords {

    private static final String OF_MANY_MEANINGS = Capture.DIRECT.word();

    private static final Map<String, Capture> CAPTURES = Arrays.stream(Capture.values())
            .collect(Collectors.toMap(
                    capture -> capture == Capture.DIRECT ? "capture-" + OF_MANY_MEANINGS : capture.word(),
                    capture -> capture));

    private final Map<String, String> views = new LinkedHashMap<>();
    private final List<String> sets;

    NameWords(ViewCatalogue catalogue, SetCatalogue sets, Customs customs) {
        catalogue.views().forEach(view -> views.put(plain(view.id()), view.id()));
        customs.tokens().forEach((word, view) -> views.put(plain(word), view));
        this.sets = sets.sets().stream().map(PhotoSet::id).toList();
    }

    /**
     * What names say together; where they contradict one another, as a single name may, a person has to say.
     *
     * @param views the views it names
     * @param sets the sets it names
     * @param captures the captures it names
     * @param perhapsDirect whether the word direct stands there alone, which may mean the capture, or a filling
     */
    record Named(Set<String> views, Set<String> sets, Set<Capture> captures, boolean perhapsDirect) {}

    Named in(List<String> names) {
        Set<String> foundViews = new TreeSet<>();
        Set<String> foundSets = new TreeSet<>();
        Set<Capture> captures = EnumSet.noneOf(Capture.class);
        boolean perhapsDirect = false;
        for (String part : parts(names)) {
            String rest = part;
            for (String word : longestFirst(new ArrayList<>(views.keySet()))) {
                if (rest.contains("-" + word + "-")) {
                    foundViews.add(String.valueOf(views.get(word)));
                    rest = rest.replace("-" + word + "-", "-/-");
                }
            }
            for (String set : longestFirst(sets)) {
                if (rest.contains("-" + set + "-")) {
                    foundSets.add(set);
                    rest = rest.replace("-" + set + "-", "-/-");
                }
            }
            // One word of a capture begins with the whole of another
            for (String word : longestFirst(new ArrayList<>(CAPTURES.keySet()))) {
                if (rest.contains("-" + word + "-")) {
                    captures.add(CAPTURES.get(word));
                    rest = rest.replace("-" + word + "-", "-/-");
                }
            }
            perhapsDirect |= rest.contains("-" + OF_MANY_MEANINGS + "-");
        }
        return new Named(foundViews, foundSets, captures, perhapsDirect);
    }

    /** The stage of a set that names hold as a whole word, if it is one alone. */
    static Optional<String> stage(List<String> names, PhotoSet set) {
        List<String> stages = set.places().stream()
                .flatMap(place -> place.stage().stream())
                .distinct()
                .filter(stage -> parts(names).stream().anyMatch(part -> part.contains("-" + plain(stage) + "-")))
                .toList();
        return stages.size() == 1 ? Optional.of(stages.get(0)) : Optional.empty();
    }

    private static List<String> longestFirst(List<String> words) {
        return words.stream()
                .sorted((a, b) -> Integer.compare(b.length(), a.length()))
                .toList();
    }

    private static List<String> parts(List<String> names) {
        return names.stream()
                .flatMap(name ->
                        Arrays.stream(name.replaceFirst("\\.[A-Za-z]{3,4}$", "").split("/")))
                .map(part -> "-" + plain(part) + "-")
                .toList();
    }

    private static String plain(String text) {
        return text.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-").replaceAll("^-|-$", "");
    }
}
