package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * What puts a picture right beyond what the camera noted of its own turn. A picture by mirror takes one of the four mirror images, for a turn
 * would leave left and right exchanged however finished it looks (trade facts F-03, F-14); a picture taken directly takes one of the
 * three turns, for a mirror image would exchange them.
 */
public enum Correction {
    /** Left and right exchanged. */
    FLIP_HORIZONTAL(Turn.FLIP_HORIZONTAL, "flip-horizontal"),
    /** Top and bottom exchanged. */
    FLIP_VERTICAL(Turn.FLIP_VERTICAL, "flip-vertical"),
    /** Mirrored across the diagonal from top left; for a camera rolled by a quarter turn. */
    TRANSPOSE(Turn.TRANSPOSE, "transpose"),
    /** Mirrored across the diagonal from top right; for a camera rolled by a quarter turn. */
    TRANSVERSE(Turn.TRANSVERSE, "transverse"),
    /** A quarter turn clockwise; for a camera that was rolled and noted nothing. */
    TURN_90(Turn.ROTATE_90, "turn-90"),
    /** Half a turn; for a camera held upside down to the patient, as from behind the head. */
    TURN_180(Turn.ROTATE_180, "turn-180"),
    /** A quarter turn anticlockwise; for a camera that was rolled the other way and noted nothing. */
    TURN_270(Turn.ROTATE_270, "turn-270");

    /** The words, for sentences that say what was expected. */
    public static final String WORDS =
            "flip-horizontal, flip-vertical, transpose or transverse for a picture by mirror; turn-90, turn-180 or turn-270 for a direct one";

    /** Takes back a correction that was said of a photograph: what view, capture and settings ask for counts again. */
    public static final String USUAL = "usual";

    /** The words about a photograph that was taken in, of which one may be taken back. */
    public static final String WORDS_TO_SETTLE = WORDS + "; " + USUAL + " takes such a word back";

    private final Turn turn;
    private final String word;

    Correction(Turn turn, String word) {
        this.turn = turn;
        this.word = word;
    }

    /** The correction of that word in commands, if there is one. */
    public static Optional<Correction> parse(String word) {
        return Arrays.stream(values()).filter(one -> one.word.equals(word)).findFirst();
    }

    /** The correction that does this to a picture; empty for {@link Turn#NONE}, which corrects nothing. */
    static Optional<Correction> of(Turn turn) {
        return Arrays.stream(values()).filter(one -> one.turn == turn).findFirst();
    }

    /** What it does to the picture. */
    public Turn turn() {
        return turn;
    }

    /** Whether it is a mirror image, which only a picture that is reversed may take. */
    public boolean mirrors() {
        return turn.mirrors();
    }

    /** The word that commands and objects use. */
    public String word() {
        return word;
    }
}
