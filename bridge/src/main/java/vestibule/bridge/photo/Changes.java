package vestibule.bridge.photo;

import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.jpeg.EdgeLoss;
import vestibule.dicom.jpeg.Turn;

/**
 * What was done to a picture on its way from the camera's file, in one pass.
 *
 * @param upright how it was turned because the camera was
 * @param correction how it was mirrored because it was taken by mirror, or turned because somebody said that it lies otherwise to the patient
 * @param loss what was left off at the edges of the recorded picture
 * @param coding how it came to be coded as it is
 */
public record Changes(Turn upright, Turn correction, EdgeLoss loss, Coding coding) {

    /** How a picture came to be coded. */
    public enum Coding {
        /** With the codes of the camera. */
        KEPT(""),
        /** With the coefficients of the camera, coded again. */
        RECODED("Coded again as JPEG Baseline with the coefficients unchanged."),
        /** Unpacked, since no JPEG Baseline object holds red, green and blue as they are. */
        UNPACKED("Unpacked from a JPEG stream of red, green and blue; not compressed again."),
        /** Unpacked, and red, green and blue made of four inks. */
        INKS(
                "Unpacked from a JPEG stream of four inks; red, green and blue made by the plain rule, each ink dimming its light.");

        private final String words;

        Coding(String words) {
            this.words = words;
        }
    }

    /** Both turns as one. */
    public Turn turn() {
        return upright.then(correction);
    }

    /** Whether the picture is not laid down as the camera recorded it. */
    public boolean turned() {
        return turn() != Turn.NONE || upright != Turn.NONE;
    }

    /** Whether something was done that a reader of the object should know. */
    public boolean any() {
        return turned() || !loss.isNone() || coding != Coding.KEPT;
    }

    /** All of it in sentences, in English as the labels of views are. */
    public String words() {
        List<String> sentences = new ArrayList<>();
        if (upright != Turn.NONE) {
            sentences.add("The camera noted that the picture was not upright: " + words(upright) + ".");
        }
        if (correction != Turn.NONE && !correction.mirrors()) {
            sentences.add("Not upright to the patient, and the camera could not know it: " + words(correction) + ".");
        }
        if (correction.mirrors()) {
            sentences.add("Taken by mirror and laterally reversed as recorded: " + words(correction) + ".");
        }
        if (turned()) {
            sentences.add(
                    coding == Coding.KEPT || coding == Coding.RECODED ? "Without loss." : "No pixel changed by it.");
        }
        if (!loss.isNone()) {
            sentences.add("Of the recorded picture were left off: " + loss.words() + ".");
        }
        if (!coding.words.isEmpty() && !(coding == Coding.RECODED && turned())) {
            sentences.add(coding.words);
        }
        return String.join(" ", sentences);
    }

    private static String words(Turn turn) {
        return switch (turn) {
            case NONE -> "left as it was";
            case FLIP_HORIZONTAL -> "flipped left-right";
            case FLIP_VERTICAL -> "flipped top-bottom";
            case ROTATE_90 -> "turned by 90 degrees clockwise";
            case ROTATE_180 -> "turned by 180 degrees";
            case ROTATE_270 -> "turned by 270 degrees clockwise";
            case TRANSPOSE -> "mirrored on the diagonal from top left";
            case TRANSVERSE -> "mirrored on the diagonal from top right";
        };
    }
}
