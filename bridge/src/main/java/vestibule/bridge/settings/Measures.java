package vestibule.bridge.settings;

import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Durations and sizes as settings write them: a whole number with its unit. */
final class Measures {

    static final String DURATION = "a duration such as \"30 s\", \"5 min\", \"12 h\" or \"90 d\"";
    static final String SIZE = "a size such as \"500 MB\" or \"2 GB\"";

    private static final Pattern NUMBER_AND_UNIT = Pattern.compile("([0-9]{1,9}) ?([A-Za-z]{1,3})");

    private Measures() {}

    static Optional<Duration> duration(String text) {
        Matcher form = NUMBER_AND_UNIT.matcher(text);
        if (!form.matches()) {
            return Optional.empty();
        }
        long number = Long.parseLong(form.group(1));
        return Optional.ofNullable(
                switch (form.group(2)) {
                    case "ms" -> Duration.ofMillis(number);
                    case "s" -> Duration.ofSeconds(number);
                    case "min" -> Duration.ofMinutes(number);
                    case "h" -> Duration.ofHours(number);
                    case "d" -> Duration.ofDays(number);
                    default -> null;
                });
    }

    static Optional<Long> size(String text) {
        Matcher form = NUMBER_AND_UNIT.matcher(text);
        if (!form.matches()) {
            return Optional.empty();
        }
        long number = Long.parseLong(form.group(1));
        return Optional.ofNullable(
                switch (form.group(2).toUpperCase(Locale.ROOT)) {
                    case "KB" -> number * 1_000;
                    case "MB" -> number * 1_000_000;
                    case "GB" -> number * 1_000_000_000;
                    default -> null;
                });
    }
}
