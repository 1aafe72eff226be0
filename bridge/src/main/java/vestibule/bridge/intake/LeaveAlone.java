package vestibule.bridge.intake;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Names of files and folders that are not looked at, with {@code *} for any characters; capitals do not matter.
 *
 * @param names such names
 */
public record LeaveAlone(List<String> names) {

    /** What cameras and systems keep for themselves (common practice, no source). */
    public static final LeaveAlone USUAL = new LeaveAlone(List.of(
            ".*",
            "*.thm",
            "*.ctg",
            "*.dat",
            "*.ind",
            "*.bdm",
            "desktop.ini",
            "thumbs.db",
            "system volume information",
            "$recycle.bin"));

    public LeaveAlone {
        names = List.copyOf(names);
    }

    /** These and more. */
    public LeaveAlone and(List<String> more) {
        return new LeaveAlone(Stream.concat(names.stream(), more.stream()).toList());
    }

    boolean covers(Path path) {
        Path last = path.getFileName();
        String name = last == null ? "" : last.toString().toLowerCase(Locale.ROOT);
        return names.stream().anyMatch(each -> matches(each.toLowerCase(Locale.ROOT), name));
    }

    private static boolean matches(String form, String name) {
        List<String> parts = List.of(form.split("\\*", -1));
        return name.matches(String.join(".*", parts.stream().map(Pattern::quote).toList()));
    }
}
