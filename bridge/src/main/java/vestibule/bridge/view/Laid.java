package vestibule.bridge.view;

import java.util.Optional;

/**
 * How a picture was laid when it was decided. Both go together: the same flip leads to other letters where settings have the view lie
 * otherwise by now, so that neither is to be taken from settings once the other is decided.
 *
 * @param correction what puts it right, where a person or the roll of the camera said it; else it follows from view, capture and orientation
 * @param orientation Patient Orientation of the finished picture; empty where the view has none, and in decisions of before it was kept
 */
public record Laid(Optional<Correction> correction, Optional<String> orientation) {

    /** Where nothing was decided of it. */
    public static final Laid UNSAID = new Laid(Optional.empty(), Optional.empty());

    /** Whether a person's flip is the one of then, and was said of a picture that was to lie otherwise. */
    boolean isOtherWayBy(Correction flip, Optional<String> today) {
        return correction.equals(Optional.of(flip)) && orientation.isPresent() && !orientation.equals(today);
    }
}
