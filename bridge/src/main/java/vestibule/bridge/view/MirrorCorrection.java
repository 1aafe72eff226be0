package vestibule.bridge.view;

import java.util.Arrays;
import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * What puts a picture taken by mirror right. There are four, and each is a mirror image itself: a half turn, or any other turn, leaves
 * left and right exchanged, however finished it looks, and so is none of them.
 */
public enum MirrorCorrection {
    /** Left and right exchanged. */
    FLIP_HORIZONTAL(Turn.FLIP_HORIZONTAL, "flip-horizontal"),
    /** Top and bottom exchanged. */
    FLIP_VERTICAL(Turn.FLIP_VERTICAL, "flip-vertical"),
    /** Mirrored across the diagonal from top left; for a camera rolled by a quarter turn. */
    TRANSPOSE(Turn.TRANSPOSE, "transpose"),
    /** Mirrored across the diagonal from top right; for a camera rolled by a quarter turn. */
    TRANSVERSE(Turn.TRANSVERSE, "transverse");

    private final Turn turn;
    private final String word;

    MirrorCorrection(Turn turn, String word) {
        this.turn = turn;
        this.word = word;
    }

    /** The correction of that word in commands, if there is one. */
    public static Optional<MirrorCorrection> parse(String word) {
        return Arrays.stream(values()).filter(one -> one.word.equals(word)).findFirst();
    }

    /** The correction that does this to a picture; empty for turns, which correct nothing. */
    static Optional<MirrorCorrection> of(Turn turn) {
        return Arrays.stream(values()).filter(one -> one.turn == turn).findFirst();
    }

    /** What it does to the picture. */
    public Turn turn() {
        return turn;
    }

    /** The word that commands and objects use. */
    public String word() {
        return word;
    }
}
