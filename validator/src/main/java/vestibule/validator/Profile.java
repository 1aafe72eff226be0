package vestibule.validator;

import java.util.Optional;
import java.util.Set;

/**
 * Which rules are asked.
 *
 * @param name what reports and the command call it
 * @param houseRules whether the rules of the practice are added to those of the standard
 * @param assumedFalse conditions that no object shows (as: the patient is an animal), taken for false under this profile
 */
public record Profile(String name, boolean houseRules, Set<String> assumedFalse) {

    /** What DICOM demands, no more and no less. */
    public static final Profile STANDARD = new Profile("standard", false, Set.of());

    /** What DICOM demands of the photographs of a dental practice for people, with the rules of the house. */
    public static final Profile PRACTICE = new Profile(
            "practice",
            true,
            Set.of("patient is a non-human organism", "series images temporally related", "pixel aspect is not 1:1"));

    public Profile {
        assumedFalse = Set.copyOf(assumedFalse);
    }

    /** The profile of that name. */
    public static Optional<Profile> named(String name) {
        return java.util.stream.Stream.of(STANDARD, PRACTICE)
                .filter(profile -> profile.name.equals(name))
                .findFirst();
    }

    /** Whether a rule is asked. */
    public boolean includes(Rule rule) {
        return houseRules || !rule.isHouseRule();
    }
}
