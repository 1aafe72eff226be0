package vestibule.bridge.view;

import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * What a file notes of its own turn (Exif Orientation), beside what puts the picture right. A camera that was turned notes a quarter or half
 * a turn, and that is followed; but where settings say that it is always rolled by a quarter turn, a note of one may tell of the same turn,
 * and both together would lay the picture on its side. A note of a mirror image mostly comes from a program with which somebody has put the picture right, and half
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
            return questionOfRoll(noted, placement);
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

    /**
     * Why a person has to say the correction, though somebody said the capture: a quarter turn is noted beside one that settings say of the
     * camera. A tilt sensor that looks up or down notes one shot and not the next.
     *
     * @param noted the turn that was noted
     * @param placement what the view comes to without a person's word on the correction
     */
    public static Optional<String> questionOfRoll(Turn noted, Placement placement) {
        Turn flip = placement.putRight();
        if (!noted.exchangesAxes() || !flip.exchangesAxes()) {
            return Optional.empty();
        }
        return Optional.of(
                "A quarter turn is noted (Exif Orientation), and the settings say that the camera is rolled by one as well, so that the picture may be turned twice: look at it as it lies by that note, and say which flip puts it right, correct-by "
                        + flips(noted.inverse().then(flip)) + ".");
    }

    /** The flips that may be right, with what speaks for each where the note is no mirror image itself. */
    private static String flips(Turn asSettingsSay) {
        return asSettingsSay.mirrors()
                ? "%s if the camera was rolled as the settings say, %s if the other way, transpose or transverse if it was not rolled"
                        .formatted(word(asSettingsSay), word(Turn.ROTATE_180.then(asSettingsSay)))
                : "flip-horizontal, flip-vertical, transpose or transverse";
    }

    private static String word(Turn flip) {
        return Correction.of(flip).orElseThrow().word();
    }

    /**
     * Why a person has to say the capture or the correction where nobody can tell what was noted.
     *
     * @param doubt why, as words without a full stop
     * @param placement what the view comes to without a person's word on capture or correction
     */
    public static String unread(String doubt, Placement placement) {
        return "%s, so that no turn of it is followed, and the picture may lie on its side or upside down: look at it as it was recorded, not as other programs turn it, and say the capture, %s, if the camera was held upright; else say correct-by %s."
                .formatted(
                        doubt,
                        placement.capture().word(),
                        placement.capture().reversed()
                                ? "flip-horizontal, flip-vertical, transpose or transverse"
                                : "turn-90, turn-180 or turn-270");
    }

    /** What puts the picture right after half a turn that should not have been followed. */
    private static Correction withoutHalfTurn(Correction flip) {
        return Correction.of(Turn.ROTATE_180.then(flip.turn())).orElseThrow();
    }
}
