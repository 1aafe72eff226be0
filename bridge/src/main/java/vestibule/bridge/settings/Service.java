package vestibule.bridge.settings;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The service itself.
 *
 * @param port where health, metrics and status can be asked for on the loopback address; nowhere if empty
 * @param log {@code text} or {@code json}
 * @param level {@code error}, {@code warn}, {@code info} or {@code debug}
 */
public record Service(Optional<Integer> port, String log, String level) {

    static final Set<String> KEYS = Set.of("service.port", "service.log", "service.level");

    static final Service UNSAID = new Service(Optional.empty(), "text", "info");

    static Service of(SettingsReader reader) {
        return new Service(
                reader.number("service.port", 0, 65_535),
                oneOf(reader, "service.log", UNSAID.log, List.of("text", "json")),
                oneOf(reader, "service.level", UNSAID.level, List.of("error", "warn", "info", "debug")));
    }

    private static String oneOf(SettingsReader reader, String key, String unless, List<String> words) {
        return reader.value(
                        key,
                        text -> words.contains(text) ? Optional.of(text) : Optional.empty(),
                        "one of " + String.join(", ", words))
                .orElse(unless);
    }
}
