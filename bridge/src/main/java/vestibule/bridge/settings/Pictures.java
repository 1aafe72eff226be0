package vestibule.bridge.settings;

import java.util.Optional;
import vestibule.bridge.photo.Inks;
import vestibule.bridge.photo.Keep;
import vestibule.dicom.jpeg.Recoding;

/**
 * What a practice does with pictures.
 *
 * @param keepRaw whether the raw picture of a mirror capture is kept beside the corrected one
 * @param edge what to do where a lossless turn would bring a partial block to the wrong edge; unless said, pixels are left off only where
 *     the raw picture is kept beside
 * @param inks what to do with pictures of four inks
 * @param keep which private notes of the camera go into objects
 */
public record Pictures(boolean keepRaw, Optional<Recoding.Edge> edge, Inks inks, Keep keep) {

    /** What is done unless a practice says otherwise. */
    public static final Pictures USUAL = new Pictures(true, Optional.empty(), Inks.REFUSE, Keep.NOTHING);

    /** The policy of that word, if there is one: {@code trim} or {@code keep}. */
    public static Optional<Recoding.Edge> edge(String word) {
        return switch (word) {
            case "trim" -> Optional.of(Recoding.Edge.TRIM);
            case "keep" -> Optional.of(Recoding.Edge.KEEP);
            default -> Optional.empty();
        };
    }

    /** What to do at edges when the raw picture is kept beside, or is not. */
    public Recoding.Edge edge(boolean rawBeside) {
        return edge.orElse(rawBeside ? Recoding.Edge.TRIM : Recoding.Edge.KEEP);
    }

    /** The same with another policy for edges. */
    public Pictures withEdge(Recoding.Edge other) {
        return new Pictures(keepRaw, Optional.of(other), inks, keep);
    }
}
