package vestibule.bridge.view;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * How a practice photographs and calls its views, where that differs from the catalogue (trade facts, section 9).
 *
 * @param choices what it does in the less usual way
 * @param language the language of labels, as {@code en} or {@code de}
 * @param labels its own labels: view id to label
 * @param tokens its own words in names of files and folders: word to view id
 * @param mirror how pictures by mirror are taken, where no camera or room has its own way; empty where each has to be told
 * @param mirrorOf the same by serial number, camera model or folder
 * @param direct where the operator stands for direct pictures inside the mouth, where no camera or room has its own way
 * @param directOf the same by serial number, camera model or folder
 * @param notation how teeth are called in lists
 */
public record Customs(
        Set<Choice> choices,
        String language,
        Map<String, String> labels,
        Map<String, String> tokens,
        Optional<MirrorSetUp> mirror,
        Map<String, MirrorSetUp> mirrorOf,
        DirectSetUp direct,
        Map<String, DirectSetUp> directOf,
        Tooth.Notation notation) {

    /** The customs of a practice that said nothing. */
    public static final Customs USUAL = new Customs(
            Set.of(),
            "en",
            Map.of(),
            Map.of(),
            Optional.empty(),
            Map.of(),
            DirectSetUp.FRONT,
            Map.of(),
            Tooth.Notation.ISO_3950);

    public Customs {
        choices = Set.copyOf(choices);
        labels = Map.copyOf(labels);
        tokens = Map.copyOf(tokens);
        mirrorOf = Map.copyOf(mirrorOf);
        directOf = Map.copyOf(directOf);
    }

    /** The languages there are labels in. */
    public static List<String> languages() {
        return Labels.LANGUAGES;
    }

    /** Whether some camera of the practice mirrors pictures back by itself; only then may a picture be said to be of that kind. */
    public boolean someCameraFlips() {
        return mirror.equals(Optional.of(MirrorSetUp.IN_CAMERA)) || mirrorOf.containsValue(MirrorSetUp.IN_CAMERA);
    }

    /** Keys that name one camera or room twice, and differently, a sentence without a full stop each. */
    public List<String> contradictions() {
        return Stream.concat(
                        CameraOrRoom.contradictions("mirror-of", mirrorOf),
                        CameraOrRoom.contradictions("direct-of", directOf))
                .toList();
    }

    /**
     * Whether that camera mirrors pictures back by itself, by what the practice says of it.
     *
     * @param names what the camera and the room are called, the most telling first
     */
    boolean flips(Collection<String> names) {
        return mirror(names).equals(Optional.of(MirrorSetUp.IN_CAMERA));
    }

    /**
     * The captures that may be said of a picture of that camera, for sentences that ask.
     *
     * @param byMirror whether the view is always taken by mirror
     */
    String captures(Collection<String> names, boolean byMirror) {
        if (flips(names)) {
            return "direct or direct-behind, or mirror-flipped if a mirror was used, for this camera mirrors back by itself";
        }
        String words = byMirror ? Capture.MIRROR_WORDS : Capture.WORDS;
        return someCameraFlips() ? words + ", or mirror-flipped if the camera mirrored it back by itself" : words;
    }

    /**
     * How a mirror picture of that camera in that room was taken, if the practice said so.
     *
     * @param names what the camera and the room are called, the most telling first
     */
    public Optional<MirrorSetUp> mirror(Collection<String> names) {
        return CameraOrRoom.told(mirrorOf, names).or(() -> mirror);
    }

    /**
     * Where the operator stood for a direct picture inside the mouth of that camera in that room.
     *
     * @param names what the camera and the room are called, the most telling first
     */
    public DirectSetUp direct(Collection<String> names) {
        return CameraOrRoom.told(directOf, names).orElse(direct);
    }
}
