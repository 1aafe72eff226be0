package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Which region codes and laterality a practice uses. */
public enum CodingProfile {
    /** The region codes and sides of intra-oral radiographs, so that both are found together (PS3.16 CID 4016). */
    DENTAL,
    /** Mouth, or head and neck, as orthodontic records are coded. */
    ORTHO;

    /** The profile of that word, if there is one. */
    public static Optional<CodingProfile> parse(String word) {
        return Arrays.stream(values())
                .filter(profile -> profile.word().equals(word))
                .findFirst();
    }

    /** The word that settings use. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
