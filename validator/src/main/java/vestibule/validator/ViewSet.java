package vestibule.validator;

import java.util.List;

/**
 * The views that a sitting should contain.
 *
 * @param name what reports call it
 * @param views the ids of its views
 */
public record ViewSet(String name, List<String> views) {

    public ViewSet {
        views = List.copyOf(views);
    }

    /** What it is called and has, in one line. */
    public String sentence() {
        return "the set %s has %s".formatted(name, String.join(", ", views));
    }
}
