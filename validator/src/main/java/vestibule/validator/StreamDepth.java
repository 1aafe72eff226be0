package vestibule.validator;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** How far the JPEG stream of a photograph is read. */
public enum StreamDepth {
    /** Its headers up to the coded data, and its end; what lies between is not looked at. */
    HEADERS,
    /** Every byte is looked at for markers. */
    MARKERS;

    /** The word that the command and the reports use: {@code headers}, {@code markers}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The depth of that name. */
    public static Optional<StreamDepth> named(String name) {
        return Arrays.stream(values())
                .filter(depth -> depth.word().equals(name))
                .findFirst();
    }

    /** The names of all, parted by commas. */
    public static String names() {
        return Arrays.stream(values()).map(StreamDepth::word).collect(Collectors.joining(", "));
    }
}
