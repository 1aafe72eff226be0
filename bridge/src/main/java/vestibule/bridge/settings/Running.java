package vestibule.bridge.settings;

import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What the service needs to run. */
public record Running(Home home, Intake intake, Archive archive, Service service) {

    static final Set<String> KEYS = Stream.of(Home.KEYS, Intake.KEYS, Archive.KEYS, Service.KEYS)
            .flatMap(Set::stream)
            .collect(Collectors.toSet());

    /** Where a practice said nothing. */
    public static final Running UNSAID = new Running(Home.UNSAID, Intake.UNSAID, Archive.UNSAID, Service.UNSAID);

    static Running of(SettingsReader reader) {
        return new Running(Home.of(reader), Intake.of(reader), Archive.of(reader), Service.of(reader));
    }
}
