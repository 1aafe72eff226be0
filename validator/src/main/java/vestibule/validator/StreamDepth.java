package vestibule.validator;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** How far the JPEG stream of a photograph is read. */
public enum StreamDepth {
    /** Its headers up to the coded data, and its end; what lies between is not looked at. */
    HEADERS("headers only; what follows them is not looked at, so a picture that is cut short or damaged in it passes"),
    /** Every byte is looked at for markers; what stands between them is not decoded. */
    MARKERS("markers only; coded data is not decoded, so a picture that is cut short or damaged in it passes"),
    /** Every code is decoded too, as long as the picture is a sequential one of 8 bits. */
    CODES("");

    private final String limit;

    StreamDepth(String limit) {
        this.limit = limit;
    }

    /** What may be wrong with a picture that passes, for reports; empty if it was decoded. */
    public String limit() {
        return limit;
    }

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
