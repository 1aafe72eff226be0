package vestibule.bridge.settings;

import java.time.Duration;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a practice says of its cameras: the section {@code [cameras]}.
 *
 * @param pause how long nothing is photographed before a patient card no longer counts and a new sitting begins
 * @param merge whether a patient card that one camera took counts for all cameras of a source
 * @param clocks what has to be added to a camera's clock, by its serial number or model
 */
public record Cameras(Duration pause, boolean merge, Map<String, Duration> clocks) {

    /** A practice that said nothing. */
    public static final Cameras UNSAID = new Cameras(Duration.ofMinutes(20), false, Map.of());

    static final Set<String> KEYS = Set.of("cameras.pause-minutes", "cameras.merge");

    /** The table whose keys are cameras. */
    static final String CLOCKS = "cameras.clocks";

    private static final Pattern CORRECTION = Pattern.compile("([+-])([0-9]{1,6}):([0-5][0-9]):([0-5][0-9])");

    public Cameras {
        clocks = Map.copyOf(clocks);
    }

    static Cameras of(SettingsReader reader) {
        return new Cameras(
                reader.value(
                                "cameras.pause-minutes",
                                text -> text.matches("[1-9][0-9]{0,3}")
                                        ? Optional.of(Duration.ofMinutes(Long.parseLong(text)))
                                        : Optional.empty(),
                                "minutes in quotes, as \"20\"")
                        .orElse(UNSAID.pause()),
                reader.flag("cameras.merge", false),
                reader.table(CLOCKS, Cameras::correction, "what has to be added, as \"+01:00:00\" or \"-00:02:30\""));
    }

    private static Optional<Duration> correction(String text) {
        Matcher form = CORRECTION.matcher(text);
        if (!form.matches()) {
            return Optional.empty();
        }
        Duration length = Duration.ofHours(Long.parseLong(form.group(2)))
                .plusMinutes(Long.parseLong(form.group(3)))
                .plusSeconds(Long.parseLong(form.group(4)));
        return Optional.of(form.group(1).equals("-") ? length.negated() : length);
    }

    /** Whether the practice said by how much a camera's clock is wrong, or that it is right. */
    public boolean isClockSaid(Collection<String> names) {
        return names.stream().anyMatch(clocks::containsKey);
    }

    /**
     * What has to be added to a camera's clock; nothing where the practice said nothing.
     *
     * @param names what the camera is called, the most telling first
     */
    public Duration clock(Collection<String> names) {
        return names.stream()
                .filter(clocks::containsKey)
                .map(clocks::get)
                .findFirst()
                .orElse(Duration.ZERO);
    }
}
