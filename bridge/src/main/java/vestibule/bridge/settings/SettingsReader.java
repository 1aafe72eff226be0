package vestibule.bridge.settings;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlInvalidTypeException;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/**
 * Reads one settings file for all its sections and collects what is wrong with it.
 *
 * @param problems gets a sentence for each wrong value
 */
record SettingsReader(Path file, TomlParseResult toml, List<String> problems) {

    /** Where every key is shown. */
    static final List<String> PAGES =
            List.of("administrator.md", "several-nodes.md", "which-view.md", "whose-photograph.md");

    private static final int LONGEST_SHOWN = 60;

    /** Complains of keys that are not known; a known key that ends in {@code .*} stands for all below it. */
    void refuseUnknownKeys(Set<String> known) {
        Set<String> below = known.stream()
                .filter(key -> key.endsWith(".*"))
                .map(key -> key.substring(0, key.length() - 1))
                .collect(Collectors.toSet());
        for (String key : toml.dottedKeySet()) {
            if (!known.contains(key) && below.stream().noneMatch(key::startsWith)) {
                problems.add("%s %s: the key %s is not known; close to it is %s, and in docs %s show all keys"
                        .formatted(file, line(key), shortened(key), Nearest.key(key, known), String.join(", ", PAGES)));
            }
        }
    }

    Optional<String> text(String key, VR vr) {
        return value(
                key,
                text -> text.isBlank() || TextForm.problem(vr, text).isPresent() ? Optional.empty() : Optional.of(text),
                "1 to %d characters, no backslash and no line break".formatted(vr.maximumLength()));
    }

    boolean flag(String key, boolean unless) {
        Object found = toml.contains(key) ? toml.get(key) : Boolean.valueOf(unless);
        if (found instanceof Boolean flag) {
            return flag;
        }
        problems.add("%s %s: %s is no plain true or false".formatted(file, line(key), key));
        return unless;
    }

    <T> Optional<T> value(String key, Function<String, Optional<T>> form, String expected) {
        return value(key, form, word -> expected);
    }

    /** @param expected what was expected in place of a word that is wrong */
    <T> Optional<T> value(String key, Function<String, Optional<T>> form, Function<String, String> expected) {
        if (!toml.contains(key)) {
            return Optional.empty();
        }
        Object found = toml.get(key);
        Optional<T> value = found instanceof String text ? form.apply(text) : Optional.empty();
        if (value.isEmpty()) {
            problems.add("%s %s: %s is %s, expected %s"
                    .formatted(file, line(key), key, shown(found), expected(found, expected)));
        }
        return value;
    }

    /** The values of a table whose keys the practice chooses, in the order of the file. */
    <T> Map<String, T> table(String key, Function<String, Optional<T>> form, String expected) {
        return table(key, form, word -> expected);
    }

    /** @param expected what was expected in place of a word that is wrong */
    <T> Map<String, T> table(String key, Function<String, Optional<T>> form, Function<String, String> expected) {
        Map<String, T> values = new LinkedHashMap<>();
        if (!toml.contains(key)) {
            return values;
        }
        if (!toml.isTable(key)) {
            problems.add("%s %s: %s is no table of values".formatted(file, line(key), key));
            return values;
        }
        TomlTable table = Objects.requireNonNull(toml.getTable(key));
        for (String name : table.keySet()) {
            Object found = table.get(List.of(name));
            Optional<T> value = found instanceof String text ? form.apply(text) : Optional.empty();
            if (value.isPresent()) {
                values.put(name, value.get());
            } else {
                problems.add("%s %s: %s.\"%s\" is %s, expected %s"
                        .formatted(file, line(key), key, shortened(name), shown(found), expected(found, expected)));
            }
        }
        return values;
    }

    /** A path, from the folder of the settings file on where it has no root. */
    Optional<Path> path(String key) {
        return value(key, this::resolved, "the name of a file");
    }

    private Optional<Path> resolved(String text) {
        try {
            Path parent = file.toAbsolutePath().getParent();
            return text.isBlank() || parent == null ? Optional.empty() : Optional.of(parent.resolve(text));
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }

    /** A whole number within bounds. */
    Optional<Integer> number(String key, int least, int most) {
        if (!toml.contains(key)) {
            return Optional.empty();
        }
        if (toml.get(key) instanceof Long number && number >= least && number <= most) {
            return Optional.of(number.intValue());
        }
        problems.add("%s %s: %s is %s, expected a whole number from %d to %d"
                .formatted(file, line(key), key, toml.get(key), least, most));
        return Optional.empty();
    }

    /** A list of application entity titles. */
    List<String> titles(String key) {
        List<String> titles = new ArrayList<>();
        List<?> found = toml.get(key) instanceof TomlArray array ? array.toList() : List.of();
        for (Object each : found) {
            if (each instanceof String text
                    && !text.isBlank()
                    && TextForm.problem(VR.AE, text).isEmpty()) {
                titles.add(text);
            }
        }
        if (toml.contains(key) && (titles.isEmpty() || titles.size() != found.size())) {
            problems.add("%s %s: %s is no list of AE titles, expected one as [\"ARCHIVE\"], each of 1 to 16 characters"
                    .formatted(file, line(key), key));
        }
        return titles;
    }

    /** All values of an array of texts; one text stands for an array of one. */
    <T> List<T> values(String key, Function<String, Optional<T>> form, String expected) {
        if (!toml.contains(key)) {
            return List.of();
        }
        if (!(toml.get(key) instanceof TomlArray array)) {
            return value(key, form, expected).map(List::of).orElse(List.of());
        }
        List<T> values = new ArrayList<>();
        for (Object found : array.toList()) {
            Optional<T> value = found instanceof String text ? form.apply(text) : Optional.empty();
            if (value.isEmpty()) {
                refuse(key, "an entry is %s, expected %s".formatted(shown(found), expected));
            }
            value.ifPresent(values::add);
        }
        return values;
    }

    /** The names of the tables below a key, in the order of the file. */
    List<String> tablesBelow(String key) {
        return toml.contains(key) && toml.isTable(key)
                ? List.copyOf(Objects.requireNonNull(toml.getTable(key)).keySet())
                : List.of();
    }

    /** Complains of what stands at a key. */
    void refuse(String key, String problem) {
        problems.add("%s %s: %s: %s".formatted(file, line(key), shortened(key), problem));
    }

    /** The line of a key, or of what it would stand in where it is not there. */
    private String line(String key) {
        List<String> path = Toml.parseDottedKey(key);
        for (int length = path.size(); length > 0; length--) {
            TomlPosition position = position(path.subList(0, length));
            if (position != null) {
                return "line " + position.line();
            }
        }
        return "";
    }

    private @Nullable TomlPosition position(List<String> path) {
        try {
            return toml.inputPositionOf(path);
        } catch (TomlInvalidTypeException noTable) {
            // A value stands where a table was expected, and then its line is the right one
            return null;
        }
    }

    private static String expected(Object found, Function<String, String> expected) {
        return expected.apply(found instanceof String text ? text : "");
    }

    private static String shown(Object found) {
        return found instanceof String text ? "\"" + shortened(text) + "\"" : "no text in quotes";
    }

    private static String shortened(String text) {
        return text.length() > LONGEST_SHOWN ? text.substring(0, LONGEST_SHOWN) + "…" : text;
    }
}
