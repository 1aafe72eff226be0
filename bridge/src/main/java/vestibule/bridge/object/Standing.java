package vestibule.bridge.object;

import java.util.Optional;
import vestibule.bridge.view.Orientation;
import vestibule.dicom.data.Uid;

/** How an object stands to others of the same photograph (trade facts D-8; PS3.3 C.7.6.1.1.2, C.12.4). */
public sealed interface Standing {

    /** The only object of its photograph, put right before it was filed: an original (PS3.3 C.7.6.1.1.2). */
    record Sole() implements Standing {}

    /** The picture as recorded, kept beside the corrected one: an original, and labelled uncorrected. */
    record Recorded() implements Standing {}

    /**
     * The corrected picture beside the recorded one: derived, and pointing at it.
     *
     * @param recorded SOP Instance UID of the object of the picture as recorded
     */
    record Corrected(Uid recorded) implements Standing {}

    /**
     * A copy that somebody made from an image that is filed already, as a greyed or annotated one.
     *
     * @param sourceClass SOP Class UID of that image
     * @param source SOP Instance UID of that image
     * @param words what was done to it
     */
    record Copy(Uid sourceClass, Uid source, String words) implements Standing {}

    /** The only object of its photograph. */
    static Standing sole() {
        return new Sole();
    }

    /** Patient Orientation of the picture in the object, worked back from the finished one where it shows the picture as recorded. */
    static Optional<Orientation> orientation(PhotographicObject.Material material) {
        return material.standing() instanceof Recorded
                ? recordedOrientation(material)
                : material.placement().orientation().flatMap(Orientation::parse);
    }

    /** Patient Orientation of the picture as the camera recorded it. */
    static Optional<Orientation> recordedOrientation(PhotographicObject.Material material) {
        return material.placement()
                .orientation()
                .flatMap(Orientation::parse)
                .map(finished -> finished.after(material.turn().inverse()));
    }
}
