package vestibule.validator;

import java.nio.file.Path;
import java.util.List;

/**
 * What a practice settled for its checks.
 *
 * @param profile which rules are asked
 * @param relevellings rules that count otherwise than they say
 * @param waivers findings that are set aside
 * @param sets the views that sittings should contain
 */
public record Settings(Profile profile, List<Relevelling> relevellings, List<Waiver> waivers, List<ViewSet> sets) {

    public Settings {
        relevellings = List.copyOf(relevellings);
        waivers = List.copyOf(waivers);
        sets = List.copyOf(sets);
    }

    /** A profile as it is. */
    public static Settings of(Profile profile) {
        return new Settings(profile, List.of(), List.of(), List.of());
    }

    /**
     * Reads a settings file.
     *
     * @throws SettingsException if it cannot be read or says something that cannot be followed; the message lists every such line
     */
    public static Settings read(Path file) throws SettingsException {
        return SettingsReader.read(file);
    }

    /** The same under another profile. */
    public Settings under(Profile other) {
        return new Settings(other, relevellings, waivers, sets);
    }

    /** How much a breach of a rule counts. */
    Severity severity(Rule rule) {
        return relevellings.stream()
                .filter(one -> one.rule().equals(rule.id()))
                .findFirst()
                .map(Relevelling::severity)
                .orElse(rule.severity());
    }
}
