package vestibule.bridge.view;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * Which sets a practice uses, and what it lets their order decide (trade facts D-11, D-12, F-68).
 *
 * @param usual the set of a sitting of which nobody named one; empty where there is none
 * @param acceptOrder whether the order alone may decide when the count, every frame and every look at a picture agree for the whole set
 * @param profile which side's profile sets contain
 * @param usualViews the views this practice takes where a set leaves a choice
 * @param own its own sets; one that is called as a set of the catalogue takes its place
 */
public record SetCustoms(
        Optional<String> usual, boolean acceptOrder, Profile profile, Set<String> usualViews, List<PhotoSet> own) {

    /** The customs of a practice that said nothing. */
    public static final SetCustoms USUAL = new SetCustoms(Optional.empty(), false, Profile.RIGHT, Set.of(), List.of());

    public SetCustoms {
        usualViews = Set.copyOf(usualViews);
        own = List.copyOf(own);
    }

    /** Which side of the face a profile shows. */
    public enum Profile {
        /** The right side, facing the viewer's right. */
        RIGHT,
        /** The left side. */
        LEFT,
        /** Both, the right one first. */
        BOTH;

        /** The profile of that word, if there is one. */
        public static Optional<Profile> parse(String word) {
            return Arrays.stream(values())
                    .filter(profile -> profile.name().toLowerCase(Locale.ROOT).equals(word))
                    .findFirst();
        }
    }
}
