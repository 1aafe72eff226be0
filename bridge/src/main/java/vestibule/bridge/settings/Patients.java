package vestibule.bridge.settings;

import java.util.List;
import java.util.Set;
import vestibule.bridge.patient.NamePattern;

/**
 * How a practice says who is on a photograph: the section {@code [patients]}.
 *
 * @param names how patients stand in names of files and folders
 */
public record Patients(List<NamePattern> names) {

    /** A practice that said nothing. */
    public static final Patients UNSAID = new Patients(List.of());

    static final Set<String> KEYS = Set.of("patients.names");

    public Patients {
        names = List.copyOf(names);
    }

    static Patients of(SettingsReader reader) {
        return new Patients(reader.values(
                "patients.names",
                NamePattern::parse,
                "a pattern with {id}, or with {family} and {birth}, as \"{id}_{birth}/**\""));
    }
}
