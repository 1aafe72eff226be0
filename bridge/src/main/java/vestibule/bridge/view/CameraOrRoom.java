package vestibule.bridge.view;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * What the camera and the room of a photograph are called, as settings call them. A setting that is not recognised would leave the general
 * one in force, by which left and right may be exchanged; so small letters, blanks around it and the way accents are coded do not matter.
 */
public final class CameraOrRoom {

    private CameraOrRoom() {}

    /**
     * All that camera and room are called, the most telling first: the camera's names, then each folder above the file, the innermost
     * first, by its path and by its name alone.
     *
     * @param camera serial number and model, as far as the camera noted them
     * @param file its path, from the root of the file system or from its source on
     */
    public static List<String> names(List<String> camera, String file) {
        List<String> names = new ArrayList<>(camera);
        String path = plainPath(file);
        int end = path.lastIndexOf('/');
        while (end > 0) {
            path = path.substring(0, end);
            end = path.lastIndexOf('/');
            names.add(path);
            names.add(path.substring(end + 1));
        }
        return names;
    }

    /** What a table of the settings says of the first of these names that it knows. */
    static <T> Optional<T> told(Map<String, T> table, Collection<String> names) {
        return names.stream()
                .map(CameraOrRoom::plain)
                .flatMap(name -> table.entrySet().stream()
                        .filter(entry -> plain(entry.getKey()).equals(name))
                        .map(Map.Entry::getValue))
                .findFirst();
    }

    /** Keys of a table that name the same and say otherwise, a sentence without a full stop each. */
    static <T> Stream<String> contradictions(String table, Map<String, T> said) {
        Map<String, List<String>> keys = new TreeMap<>();
        said.keySet().stream()
                .sorted()
                .forEach(key -> keys.computeIfAbsent(plain(key), same -> new ArrayList<>())
                        .add(key));
        return keys.values().stream()
                .filter(same -> same.stream().map(said::get).distinct().count() > 1)
                .map(same -> "%s names one camera or room in several ways, \"%s\", and says different things of it"
                        .formatted(table, String.join("\", \"", same)));
    }

    private static String plain(String name) {
        String path = plainPath(name.strip());
        String bare = path.endsWith("/") ? path.substring(0, path.length() - 1) : path;
        return Normalizer.normalize(bare, Normalizer.Form.NFC).toLowerCase(Locale.ROOT);
    }

    private static String plainPath(String path) {
        return path.replace('\\', '/');
    }
}
