package vestibule.validator;

import java.nio.file.FileSystems;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.time.LocalDate;

/**
 * A rule's findings set aside for a time, by somebody who says why. They are listed still, apart from the others, and do not count.
 *
 * @param rule the rule
 * @param place which objects, as a pattern of the end of their names: {@code *} is any run of characters without a slash, {@code **} any
 *     run, {@code ?} one character; {@code **} alone means all objects
 * @param until the last day it is in force
 * @param reason why
 */
public record Waiver(RuleId rule, String place, LocalDate until, String reason) {

    /** Whether it is still in force. */
    public boolean isInForce(LocalDate today) {
        return !today.isAfter(until);
    }

    /** Whether it speaks of the object of that name. */
    boolean covers(String name) {
        if (place.equals("**")) {
            return true;
        }
        try {
            Path path = Path.of(name);
            return glob(place).matches(path) || glob("**/" + place).matches(path);
        } catch (InvalidPathException notAName) {
            return false;
        }
    }

    private static PathMatcher glob(String pattern) {
        return FileSystems.getDefault().getPathMatcher("glob:" + pattern);
    }

    /** Whom it concerns, until when and why, in one line. */
    public String sentence() {
        return "%s in %s until %s, because %s".formatted(rule, place, until, reason);
    }
}
