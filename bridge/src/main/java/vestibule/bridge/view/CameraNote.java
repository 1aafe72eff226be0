package vestibule.bridge.view;

import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * What a file notes of its own turn (Exif Orientation), beside what puts the picture right. A camera that was turned notes a quarter or half
 * a turn, and that is followed. A note of a mirror image mostly comes from a program with which somebody has put the picture right, and half
 * a turn beside a mirror from somebody who turned it "right way up", or from a sensor that looked straight down: a flip on top of either
 * would exchange left and right in a picture that looks finished (trade facts F-14, F-61), so a person has to look.
 */
public final class CameraNote {

    private CameraNote() {}

    /**
     * Why a person has to say the capture or the correction, though it follows from names or settings; empty where the note can be followed.
     *
     * @param noted the turn that was noted
     * @param placement what the view comes to without a person's word on capture or correction
     */
    public static Optional<String> question(Turn noted, Placement placement) {
        Capture capture = placement.capture();
        if (noted.mirrors()) {
            return Optional.of(
                    "The file notes of itself that it lies mirrored (Exif Orientation), as no camera is held, so that somebody may have put it right already, and left and right may be exchanged: look at the picture as it lies by that note, and say the capture, %s, if that is how it lies; else make a copy that lies as it was recorded, with vestibule turn and the flip of the note, and use that instead."
                            .formatted(capture.word()));
        }
        if (noted != Turn.ROTATE_180) {
            return Optional.empty();
        }
        if (capture == Capture.DIRECT_BEHIND) {
            return Optional.of(
                    "Names or settings say that the picture was taken upside down, from behind the head, and the camera noted half a turn of its own: look at the picture, and say the capture, direct or direct-behind.");
        }
        return placement
                .correction()
                .filter(Correction::mirrors)
                .map(flip ->
                        "Half a turn is noted (Exif Orientation), which never puts a picture by mirror right, though it may look finished: look at the picture, and say the capture, %s, if the camera was held upside down, or correct-by %s if the note should not count."
                                .formatted(capture.word(), withoutHalfTurn(flip).word()));
    }

    /** What puts the picture right after half a turn that should not have been followed. */
    private static Correction withoutHalfTurn(Correction flip) {
        return Correction.of(Turn.ROTATE_180.then(flip.turn())).orElseThrow();
    }
}
