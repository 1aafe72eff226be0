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
    FLIP_HORIZONTAL(Turn.FLIP_HORIZONTAL, "flip-horizontal", "flip_h"),
    /** Top and bottom exchanged. */
    FLIP_VERTICAL(Turn.FLIP_VERTICAL, "flip-vertical", "flip_v"),
    /** Mirrored across the diagonal from top left; for a camera rolled by a quarter turn. */
    TRANSPOSE(Turn.TRANSPOSE, "transpose", "transpose"),
    /** Mirrored across the diagonal from top right; for a camera rolled by a quarter turn. */
    TRANSVERSE(Turn.TRANSVERSE, "transverse", "transverse");

    private final Turn turn;
    private final String word;
    private final String catalogueWord;

    MirrorCorrection(Turn turn, String word, String catalogueWord) {
        this.turn = turn;
        this.word = word;
        this.catalogueWord = catalogueWord;
    }

    /** The correction of that word in commands, if there is one. */
    public static Optional<MirrorCorrection> parse(String word) {
        return Arrays.stream(values()).filter(one -> one.word.equals(word)).findFirst();
    }

    /** The correction that the catalogue names so; empty for turns, which correct nothing. */
    static Optional<MirrorCorrection> ofCatalogue(String word) {
        return Arrays.stream(values())
                .filter(one -> one.catalogueWord.equals(word))
                .findFirst();
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
